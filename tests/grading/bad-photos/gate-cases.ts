import type { CouponPlan, FindMarkers, Photo } from "#grading";
import { smallPlan, take, firedBy, type Taken } from "./bench-coupon.ts";
import { beside, bent, type Box, crop, relight } from "./picture-edits.ts";

/** A bad set of photographs, and the gate that it must fire. */
export interface GateCase {
  readonly gate: string;
  readonly words: string;
  /** all gates that fired, of photographs, patches and the coupon */
  fired(findMarkers: FindMarkers): Promise<string[]>;
}

const plan = smallPlan(3);
const { frame, patches } = plan;
let plain: Promise<Taken> | null = null;
/** Nothing is wrong with it; taken once. */
const good = (): Promise<Taken> => (plain ??= take(plan));

/** Markers under white paper, by their index in the frame. */
function covered({ photo, outline }: Taken, indices: readonly number[]): Photo {
  return indices.reduce((picture, k) => {
    const { x, y, size } = frame.markers[k]!;
    return relight(picture, outline({ x, y, width: size, height: size }, 1e-3), () => 0.6);
  }, photo);
}

/** What a rectangle of the plate takes up in the picture, as a box that holds it. */
function boxOf({ outline }: Taken, x: readonly [number, number], y: readonly [number, number]): Box {
  const ends = outline({ x: x[0], y: y[0], width: x[1] - x[0], height: y[1] - y[0] });
  const [us, vs] = [ends.map((p) => p.u), ends.map((p) => p.v)];
  return { left: Math.min(...us), right: Math.max(...us), top: Math.min(...vs), bottom: Math.max(...vs) };
}

const made = (
  gate: string,
  words: string,
  photos: () => Promise<readonly Photo[]>,
  read: CouponPlan = plan,
): GateCase => ({
  gate,
  words,
  async fired(findMarkers) {
    return firedBy(read, await photos(), findMarkers);
  },
});
const edited = (gate: string, words: string, edit: (one: Taken) => Photo, read?: CouponPlan): GateCase =>
  made(gate, words, async () => [edit(await good())], read);

/** m, beyond all edges of the sheet */
const beyond = 0.14;
const within = -0.05;
const test = patches[5]!;
const third = frame.greys[2]!;
const stripMiddle = { x: third.x, y: third.y, width: 3 * third.width, height: third.height };

/** One for every gate, beginning with those of the frame. */
export const gateCases: readonly GateCase[] = [
  edited("markers", "six of eight markers are covered", (one) => covered(one, [0, 1, 2, 3, 4, 5])),
  edited("residual", "one side of the sheet curls up", ({ photo }) =>
    bent(photo, (share) => 24 * Math.max(0, 1 - share / 0.4) ** 2),
  ),
  made("scale", "from too far away", async () => [(await take(plan, { width: 480, height: 360 })).photo]),
  made("blur", "out of focus", async () => [(await take(plan, { say: { blur: 4 } })).photo]),
  made("spread", "markers on one side only, tilted, noisy", async () => [
    covered(await take(plan, { say: { tilt: 0.48, noise: 3, blur: 1.6 } }), [1, 2, 3, 4, 5]),
  ]),
  edited("out of view", "cut off beside the coupon", (one) =>
    crop(one.photo, boxOf(one, [within, -1.5e-3], [-30e-3, 90e-3])),
  ),
  edited("no patch", "cut off before the first patch is whole", (one) =>
    crop(one.photo, boxOf(one, [within, 9e-3], [within, beyond])),
  ),
  made("clipped", "exposed too long", async () => [(await take(plan, { say: { white: 1.25 } })).photo]),
  edited("card", "a shadow across the middle of one grey strip", ({ photo, outline }) =>
    relight(photo, outline(stripMiddle), (light) => 0.5 * light),
  ),
  edited("shadow", "a shadow on one patch and the layer around it", ({ photo, outline }) =>
    relight(photo, outline(test, 1.9e-3), (light) => 0.7 * light),
  ),
  made("difference", "white paint on bright aluminium in glare", async () => {
    const white = { metal: "bright aluminium", coat: "white", seed: 4001 } as const;
    const shots = ([0, 2] as const).map((turn) => take(plan, { seed: 4001, turn, glare: true }, white));
    return (await Promise.all(shots)).map(({ photo }) => photo);
  }),
  made("greys", "exposed so long that all but the darkest greys are white", async () => [
    (await take(plan, { say: { white: 8, fallOff: 0, blur: 0.3, sharpening: 0, veil: 0, tone: 0 } })).photo,
  ]),
  edited("other plan", "on the frame sheet of another coupon", ({ photo }) => photo, smallPlan(9)),
  made("two coupons", "two coupons in one photograph", async () => [
    beside((await good()).photo, (await take(smallPlan(9))).photo),
  ]),
  made("spread", "one photograph of two with glare on a patch", async () => {
    const { photo, outline } = await good();
    return [photo, relight(photo, outline(test, -0.2e-3), (light) => light + 0.06)];
  }),
  made("one photograph", "one photograph only", async () => [(await good()).photo]),
  edited("out of sight", "cut off through the last column of patches", (one) =>
    crop(one.photo, boxOf(one, [within, frame.couponWidth - 10e-3], [within, beyond])),
  ),
  edited("reference", "cut off before the cleaned reference", (one) =>
    crop(one.photo, boxOf(one, [patches[1]!.x + 4e-3, beyond], [within, beyond])),
  ),
  edited("fine lines", "lines finer than the photograph tells", ({ photo }) => photo, smallPlan(3, 0.1e-3)),
];
