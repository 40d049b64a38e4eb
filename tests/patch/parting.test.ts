import { describe, expect, it } from "vitest";
import { centralSample, layerKind, metal } from "#library";
import { Draw, metalAnswers, PointHistory } from "#patch";
import { buildKernel, type LawTable, lawTable } from "#removal";

const micron = (um: number, kind: string) => ({
  ...layerKind(kind).usualThickness,
  value: um * 1e-6,
  low: um * 1e-6,
  high: um * 1e-6,
});
/** A white coat that lets light through to a dark primer: the face between them is heated most. */
const sample = centralSample({
  metal: metal("aluminium-5083"),
  metalThickness: 5e-3,
  layers: [
    {
      kind: layerKind("acrylic"),
      colour: "white",
      thickness: micron(15, "acrylic"),
      mustStay: false,
    },
    {
      kind: layerKind("epoxy-primer"),
      colour: "dark",
      thickness: micron(30, "epoxy-primer"),
      mustStay: false,
    },
  ],
});
const draw = new Draw(sample, metalAnswers(sample.metal));
const law = lawTable(sample, buildKernel(sample, 100e-9, "square"), draw.square, {
  startTemperature: 293.15,
  radius: 200e-6,
  lateralFactor: 1,
});

/** One pulse at the middle of the spot on the whole coat. */
function onePulse(fluence: number, of: LawTable): PointHistory {
  const point = new PointHistory({
    law: of,
    fluence,
    profile: "top-hat",
    lineEvents: false,
    passes: 1,
    thickness: 45e-6,
    residueThickness: 2.25e-6,
    adhesionScatter: 0.2,
    incubation: 1,
    pulseGap: 1,
    lineGap: 1,
    multiplicity: 1,
  });
  point.run(new Float64Array([0]), new Uint8Array([1]), 1);
  return point;
}

describe("a coat of two layers", () => {
  const fluences = Array.from({ length: 60 }, (_, i) => 2e3 * 1.08 ** i);
  const parts = fluences.find((f) => Math.abs(onePulse(f, law).left - 30e-6) < 1e-9);

  it("parts between them where the dark one takes the light: the upper leaves, the primer stays", () => {
    expect(parts).toBeDefined();
    const { open, letGo } = onePulse(parts as number, law);
    expect([open, letGo]).toEqual([0, false]);
  });

  it("stays whole below that, and does not part at all when the face between them is not asked", () => {
    expect(onePulse((parts as number) / 1.3, law).left).toBeGreaterThan(44e-6);
    for (const f of fluences) expect(Math.abs(onePulse(f, { ...law, inner: null }).left - 30e-6)).toBeGreaterThan(1e-9);
  });

  it("needs the more fluence the shallower the heat: a face under a coat twice as thick parts later", () => {
    const thick = {
      ...sample,
      layers: [{ ...sample.layers[0]!, thickness: 30e-6 }, sample.layers[1]!],
    };
    const other = lawTable(thick, buildKernel(thick, 100e-9, "square"), draw.square, {
      startTemperature: 293.15,
      radius: 200e-6,
      lateralFactor: 1,
    });
    const row = (of: LawTable) => of.remaining.findIndex((r) => r > 44e-6);
    const threshold = (of: LawTable) => {
      const at = row(of);
      of.need(at);
      for (let c = 0; c < of.columns; c++)
        if ((of.inner?.strength[at * of.columns + c] as number) > 0) return of.lnFluenceFirst + c * of.lnFluenceStep;
      return Number.POSITIVE_INFINITY;
    };
    expect(threshold(other)).toBeGreaterThan(threshold(law));
  });
});
