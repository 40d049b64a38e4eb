// Writes the doors (package.json "imports") from the table of rooms, so that the two cannot drift apart.
import { readFileSync, writeFileSync } from "node:fs";
import { rooms } from "../architecture/rooms.mjs";

const path = new URL("../package.json", import.meta.url);
const pkg = JSON.parse(readFileSync(path, "utf8"));
pkg.imports = Object.fromEntries(rooms.map((r) => [`#${r.name}`, `./src/${r.name}/index.ts`]));
writeFileSync(path, `${JSON.stringify(pkg, null, 2)}\n`);
