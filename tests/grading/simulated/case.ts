import type { RandomStream } from "#numerics";
import type { PatchView } from "#grading";
import { fakePatch, pairs } from "./patch.ts";

/**
 * The distribution that residue is held against: six pairs of metal and coat, mottle 0.02-0.18, brushed texture 0.03-0.1,
 * haze on 15 %, residue that thins out to an opacity of 0.6-0.9 on 30 % of those touched, tinted metal on 30 %, melt on 30 %, blur 0.05-0.25 mm, light off by σ 1 % between patch and reference;
 * a fifth clean, a tenth untouched, a third below 15 %.
 */
export interface Case {
  readonly pair: (typeof pairs)[number];
  readonly bare: PatchView;
  readonly coat: PatchView;
  readonly patch: PatchView;
  readonly share: number;
  readonly haze: number;
}

const lit = (view: PatchView, factor: number): PatchView => ({ ...view, rgb: view.rgb.map((v) => v * factor) });

export function drawCase(random: RandomStream, index: number): Case {
  const pair = pairs[index % pairs.length]!;
  const common = {
    ...pair,
    mottle: 0.02 + 0.16 * random.next(),
    brushed: 0.03 + 0.07 * random.next(),
    blur: 0.05 + 0.2 * random.next(),
    size: 9,
    pixelsPerMm: 5,
  };
  const kind = random.next();
  const wanted = kind < 0.2 ? 0 : kind < 0.3 ? 1 : kind < 0.63 ? 0.15 * random.next() : random.next();
  const haze = random.next() < 0.15 ? 0.03 + 0.17 * random.next() : 0;
  const tint =
    random.next() < 0.3 ? [1 - 0.06 * random.next(), 1 - 0.12 * random.next(), 1 - 0.25 * random.next()] : [1, 1, 1];
  const melted = random.next() < 0.3 ? 0.01 + 0.14 * random.next() : 0;
  const film = random.next() < 0.3 && wanted < 1 ? 0.6 + 0.3 * random.next() : 1;
  const { view, share } = fakePatch({ ...common, share: wanted, haze, film, tint, melted }, random);
  return {
    pair,
    bare: fakePatch({ ...common, share: 0 }, random).view,
    coat: fakePatch({ ...common, share: 1 }, random).view,
    patch: lit(view, Math.exp(0.01 * random.normal())),
    share,
    haze,
  };
}
