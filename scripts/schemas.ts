// Writes schemas/*.schema.json from the wire shapes. Run it after a change to a shape; a test compares the two.
import { writeFileSync } from "node:fs";
import { jsonSchemaText, publishedSchemas } from "#contract";

for (const name of publishedSchemas) {
  writeFileSync(new URL(`../schemas/${name}.schema.json`, import.meta.url), jsonSchemaText(name));
}
