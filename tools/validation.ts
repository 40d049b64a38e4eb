// Puts published experiments beside what the product predicts for them and writes docs/validation.md. Misses are findings.
import { writeFileSync } from "node:fs";
import { epoxyBurntOff, rustRegimes, threeStacks } from "./validation-long.ts";
import { adhesionPrior, epoxyOnShipSteel, overlapTrend, scaleUnderLead } from "./validation-metal.ts";
import { acrylicBound, aircraftPaint, bluesAndReds, paintByPulses, paintThreshold } from "./validation-pulsed.ts";
import { validationPage } from "./validation-text.ts";

const page = validationPage([
  paintByPulses(),
  bluesAndReds(),
  aircraftPaint(),
  paintThreshold(),
  threeStacks(),
  epoxyBurntOff(),
  rustRegimes(),
  scaleUnderLead(),
  epoxyOnShipSteel(),
  overlapTrend(),
  adhesionPrior(),
  acrylicBound(),
]);
writeFileSync(new URL("../docs/validation.md", import.meta.url), page);
console.log(page);
