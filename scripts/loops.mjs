// Compiles the AssemblyScript of inner/ into src/loops/wasm-bytes.ts, which is kept in the repository so that nothing
// but a test needs the compiler. `node scripts/loops.mjs check` only compares (exit code 1 when they differ).
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import asc from "assemblyscript/asc";

const root = new URL("..", import.meta.url).pathname;
const target = join(root, "src/loops/wasm-bytes.ts");

/** The text of the module that holds the compiled bytes. */
export async function compileLoops() {
  let binary = null;
  const { error, stderr } = await asc.main(
    ["index.ts", "--baseDir", join(root, "inner"), "--outFile", "loops.wasm", "-O3", "--converge", "--noAssert"].concat(
      ["--runtime", "stub", "--enable", "simd", "--initialMemory", "4"],
    ),
    {
      readFile: (name, base) => {
        try {
          return readFileSync(join(base, name), "utf8");
        } catch {
          return null;
        }
      },
      writeFile: (_, contents) => {
        binary = contents;
      },
      listFiles: () => [],
    },
  );
  if (error || binary === null) throw new Error(`inner loops: ${error?.message ?? "nothing was written"}\n${stderr}`);
  const text = Buffer.from(binary).toString("base64");
  return `// Written by scripts/loops.mjs from the AssemblyScript in inner/. Do not edit.\nexport const wasmBytes =\n  "${text}";\n`;
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  const made = await compileLoops();
  if (process.argv.includes("check")) {
    if (readFileSync(target, "utf8") !== made) {
      console.error("src/loops/wasm-bytes.ts is not what inner/ compiles to: run npm run loops");
      process.exitCode = 1;
    }
  } else writeFileSync(target, made);
}
