// A server process on one data folder, to be killed: `child.ts <folder>`. It loads the program, waits for a line, opens the
// folder as `serve` does and says its address; then it says nothing more. With `early` it answers before a write is durable,
// so that the test can show that it would notice.
import { once } from "node:events";
import { join } from "node:path";
import { startServer } from "#server";
import { openStore, type Store } from "#store";

const [folder = "", how] = process.argv.slice(2);

/** Gives a result out of a transaction that is committed some time later. */
function hasty(store: Store): Store {
  return {
    ...store,
    write: (work, now) =>
      new Promise((resolve, reject) => {
        const slow = async (tx: Parameters<typeof work>[0]) => {
          resolve(await work(tx));
          await new Promise((later) => setTimeout(later, 25));
        };
        store.write(slow, now).catch(reject);
      }),
  };
}

// It goes with whoever started it, however that one ends.
process.stdin.on("end", () => process.exit());
await once(process.stdin, "data");
const store = openStore(join(folder, "scourlight.db"));
const server = await startServer({
  port: 0,
  store: how === "early" ? hasty(store) : store,
  webRoot: null,
  examples: join(new URL("../../..", import.meta.url).pathname, "examples"),
  now: () => new Date().toISOString(),
});
process.stdout.write(`${server.url}\n`);
