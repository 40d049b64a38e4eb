import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

/** The faces that the templates ask for; the package is found from this file, so bundles find it too. */
const faces = ["DejaVuSans.ttf", "DejaVuSans-Bold.ttf", "DejaVuSans-Oblique.ttf", "DejaVuSans-BoldOblique.ttf"];

let held: Buffer[] | null = null;

export function paperFonts(): Buffer[] {
  if (held === null) {
    const require = createRequire(import.meta.url);
    held = faces.map((face) => readFileSync(require.resolve(`dejavu-fonts-ttf/ttf/${face}`)));
  }
  return held;
}
