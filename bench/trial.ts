import { calibrate, calibrateFurther, type PatchEvidence, referenceOf, shiftShapes } from "#calibration";
import { createRandom } from "#numerics";
import { choiceTable, truthDraws } from "#window";
import { plainLogLikelihood } from "../tests/calibration/plain-likelihood.ts";
import { burnt, inventedRays, patch, problemFor } from "../tests/calibration/synthetic.ts";
import { SEED } from "./example.ts";
import { cpu, type Piece, piece } from "./measure.ts";

const DRAWS = 160;
const RAYS = 72;
const PARTICLES = 1200;
const rays = inventedRays(RAYS, DRAWS, SEED);

/** Patches on five plates along many rays, near their edges, as one truth would have them come out. */
function burned(count: number): PatchEvidence[] {
  const random = createRandom(SEED);
  const plan = Array.from({ length: count }, (_, i) =>
    patch(i + 1, rays[(5 * i) % RAYS]!, -1.2 * random.next(), { coupon: i % 5 }),
  );
  const phi = Float64Array.from({ length: problemFor(plan, DRAWS).layout.size }, () => 0.5 * random.normal());
  return burnt(plan, 17, phi, random);
}

const patches = burned(112);
const hundred = patches.slice(0, 100);
const update = () => calibrate({ kind: "pulsed", draws: DRAWS, patches: hundred, seed: SEED });

/** CPU seconds of so many evaluations of the plain likelihood over patches, from 100 of them. */
function plainEvaluations(of: readonly PatchEvidence[], evaluations: number): number {
  const spreads = {
    removal: shiftShapes.filter((s) => s.edge === "removal").map((s) => s.spread),
    damage: shiftShapes.filter((s) => s.edge === "damage").map((s) => s.spread),
  };
  const rest = (edge: string, p: PatchEvidence) =>
    shiftShapes
      .filter((s) => s.edge === edge && s.rest === true)
      .map((s) => s.shape(p.ray, p.x, p.thickness, referenceOf("pulsed")));
  const restOf = (p: PatchEvidence) => ({ removal: rest("removal", p), damage: rest("damage", p) });
  const random = createRandom(SEED);
  const phi = Float64Array.from({ length: 80 }, () => random.normal());
  let draw = 0;
  return evaluations * cpu(100, 3, () => plainLogLikelihood(of, draw++ % DRAWS, phi, 5, 1, spreads, restOf));
}

/** Likelihoods that an update works out: three proposals for each particle, move and stage. */
const evaluationsOf = (posterior: { readonly stages: number; readonly moves: number }) =>
  PARTICLES * (1 + 3 * posterior.moves * posterior.stages);
const against = "plain likelihood as often, from 100 of them";

export const trialPieces: readonly Piece[] = [
  piece("update-100", "<= 1 s", against, () => ({
    cpu: cpu(1, 3, update),
    reference: plainEvaluations(hundred, evaluationsOf(update())),
  })),
  piece("update-next-12", "<= 1 s", against, () => {
    const before = update();
    const next = () => calibrateFurther(before, patches.slice(100), SEED);
    return { cpu: cpu(1, 3, next), reference: plainEvaluations(patches, evaluationsOf(next())) };
  }),
  piece("choice-table", "<= 0.1 s", "plain likelihood of 100 patches, 1,000 times", () => {
    const truths = truthDraws(update());
    const drift = { power: 0.03, spot: 0.03, speed: 0.02, thickness: 0.05 };
    return { cpu: cpu(1, 7, () => choiceTable(truths, rays, drift)), reference: plainEvaluations(hundred, 1000) };
  }),
];
