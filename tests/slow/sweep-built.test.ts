import { execFileSync, spawn } from "node:child_process";
import { describe, expect, it } from "vitest";

const root = new URL("../..", import.meta.url).pathname;
const command = `${root}dist/cli/start.mjs`;
const args = [command, "compare", "--enquiry", `${root}examples/enquiry.json`, "--json"];

describe("the built commands", () => {
  it("say on two threads what they say on one, to the last digit", () => {
    execFileSync(process.execPath, [`${root}scripts/ready.mjs`, "build"], { stdio: "ignore" });
    const on = (threads: string) =>
      execFileSync(process.execPath, [...args, "--draws", "16", "--threads", threads], { encoding: "utf8" });
    expect(on("2")).toBe(on("1"));
  });

  it("end within a moment on Ctrl+C, threads and all", async () => {
    const child = spawn(process.execPath, [...args, "--draws", "256", "--threads", "2"]);
    let errors = "";
    child.stderr.on("data", (text) => (errors += text));
    await new Promise((turn) => setTimeout(turn, 3000));
    const asked = performance.now();
    child.kill("SIGINT");
    const code = await new Promise((ended) => child.on("exit", ended));
    expect(code).toBe(130);
    expect(errors.trim()).toBe("the work was cancelled");
    expect(performance.now() - asked).toBeLessThan(3000);
  });
});
