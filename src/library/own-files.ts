import { completeFile } from "./complete.ts";
import aluminium from "./data/aluminium-alloys.json" with { type: "json" };
import contaminants from "./data/contaminants.json" with { type: "json" };
import continuous from "./data/continuous-setups.json" with { type: "json" };
import fume from "./data/fume.json" with { type: "json" };
import metallic from "./data/metallic-layers.json" with { type: "json" };
import coatings from "./data/organic-coatings.json" with { type: "json" };
import otherMetals from "./data/other-metals.json" with { type: "json" };
import oxides from "./data/oxides.json" with { type: "json" };
import pulsed from "./data/pulsed-setups.json" with { type: "json" };
import steels from "./data/steels.json" with { type: "json" };
import type { LibraryFile } from "./file-shape.ts";

/**
 * Our own data files, in print order. JSON types are wider than the file shape (words become `string`), so they are
 * asserted here; the tests of this room put every file through the validator that user files go through.
 */
export const ownFiles = [
  aluminium,
  steels,
  otherMetals,
  coatings,
  oxides,
  metallic,
  contaminants,
  pulsed,
  continuous,
  fume,
] as unknown as readonly LibraryFile[];

const completed = ownFiles.map(completeFile);

export const metals = completed.flatMap((f) => f.metals);
export const layerKinds = completed.flatMap((f) => f.layerKinds);
export const setups = completed.flatMap((f) => f.setups);
export const fumeEntries = completed.flatMap((f) => f.fumeEntries);
