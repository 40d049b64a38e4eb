import { defaultSetting } from "#beam";
import { createPartModel, planOf, patchResults, predict, surveySetups } from "#workflows";
import { exampleModelParts, SEED } from "./example.ts";
import { cpu, type Piece, piece } from "./measure.ts";
import { pulseByPulse } from "./reference.ts";

const { library, enquiry, part } = exampleModelParts();
const setup = library.setup("pulsed-500");
const setting = defaultSetting(setup);
const plainPatch = () =>
  cpu(1, 3, () => pulseByPulse(15e-3, 700, setting.speed / (setting.frequency as number), setting.lineSpacing, 130e-6));
const against = "one draw pulse by pulse on 700 x 700 cells";

export const patchPieces: readonly Piece[] = [
  piece("patch-cold", "<= 2 s", against, () => ({
    cpu: cpu(1, 5, () => predict(createPartModel(part, { seed: SEED, drawCount: 64 }), setup, setting)),
    reference: plainPatch(),
  })),
  piece("patch-warm", "<= 0.03 s", against, () => {
    const model = createPartModel(part, { seed: SEED, drawCount: 64 });
    patchResults(model, planOf(model, setup, setting));
    let turn = 0;
    const other = () => ({ ...setting, speed: setting.speed * (1 + 0.001 * (turn++ % 50)) });
    return { cpu: cpu(4, 7, () => predict(model, setup, other())), reference: plainPatch() };
  }),
  piece("compare-all", "<= 5 s", against, () => ({
    cpu: cpu(1, 1, () =>
      surveySetups(createPartModel(part, { seed: SEED, drawCount: 64 }), library.setups, enquiry.site),
    ),
    reference: plainPatch(),
  })),
];
