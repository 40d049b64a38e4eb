import type { Draw, PointHistory } from "#patch";
import {
  type Band,
  bandOf,
  between,
  flat,
  leastAt,
  modelOf,
  onePlace,
  percent,
  type PulsedCase,
  type RowAnswer,
  rasterOf,
  share,
  unknowns,
} from "./validation-cases.ts";

const PAINTS = ["alkyd", "polyurethane-topcoat", "acrylic", "epoxy-primer"];
const COLOURS = ["white", "mid", "dark"] as const;
const everyPaint = PAINTS.flatMap((kind) => COLOURS.map((colour) => [[kind, colour]] as const));

/** Within a factor of ten of the middle of the band. */
const sameOrder = (band: Band, value: number) => Math.abs(Math.log10(value / band.median)) <= 1;

/** m per pulse: over 20 pulses, or over those that eat through; null where the film is thrown off as a whole. */
function depthPerPulse(draw: Draw, run: (fluence: number, count: number) => PointHistory, fluence: number) {
  const all = run(fluence, 20);
  if (all.open > 0 && !all.ateAll) return null;
  const { thickness } = draw.strip;
  if (all.left > 0) return Math.max(0, thickness - all.left - all.char) / 20;
  let pulses = 1;
  while (run(fluence, pulses).left > 0) pulses++;
  return thickness / pulses;
}

/** Depth per pulse and yield at 1.5 J/cm² and 10 kHz; threshold at 10 kHz against 100 Hz. */
export function paintByPulses(): RowAnswer {
  const model = modelOf("steel-low-carbon", everyPaint, 192);
  const at = unknowns(model.draws.length, 1);
  const depths: number[] = [];
  const dark: number[] = [];
  const ratios: number[] = [];
  let thrown = 0;
  model.draws.forEach((draw, i) => {
    const radius = between(50e-6, 0.5e-3, at[i][0]);
    for (const duration of [5e-9, 100e-9]) {
      const place = (rate: number) => onePlace(draw, { duration, radius, period: 1 / rate, pulsed: true });
      const depth = depthPerPulse(draw, place(10e3), 1.5e4);
      if (depth === null) thrown++;
      else {
        depths.push(depth * 1e6);
        if (COLOURS[draw.sample.stackIndex % COLOURS.length] === "dark") dark.push(depth * 1e6);
      }
      const threshold = (rate: number) => {
        const run = place(rate);
        return leastAt(50, 1e6, (fluence) => {
          const h = run(fluence, 20);
          return h.open > 0 || draw.strip.thickness - h.left - h.char > 0.5e-6;
        });
      };
      ratios.push(threshold(10e3) / threshold(100));
    }
  });
  const depth = bandOf(depths);
  // 1 µm from 1.5 J/cm² is a fifteenth of a cubic millimetre per joule.
  const volume = bandOf(depths.map((d) => d / 15));
  const ratio = bandOf(ratios);
  const falling = share(ratios, (r) => r < 0.98);
  const off = thrown / (2 * model.draws.length);
  return {
    id: "E1",
    how: "flat spot of 0.1-1 mm diameter on one place; alkyd, polyurethane, acrylic, epoxy, each white, mid and dark at their usual thickness on steel; 5 and 100 ns; depth eaten per pulse over 20 pulses where the film is not thrown off as a whole; threshold: 0.5 µm gone or the weakest eighth of the film let go within 20 pulses; optics of 1.06 µm stand in for 532 nm",
    checks: [
      {
        what: "depth per pulse, 1.5 J/cm², 10 kHz",
        unit: "µm",
        band: depth,
        published: "4.5",
        met: sameOrder(depth, 4.5),
      },
      { what: "yield at 1.5 J/cm²", unit: "mm³/J", band: volume, published: "0.3", met: sameOrder(volume, 0.3) },
      {
        what: "depth per pulse, dark layers alone (prior, not counted)",
        unit: "µm",
        band: bandOf(dark),
        published: "4.5",
        met: null,
      },
      {
        what: "threshold at 10 kHz over that at 100 Hz",
        unit: "1",
        band: ratio,
        published: "below 1",
        met: ratio.median < 0.98,
      },
    ],
    why: `order: within a factor of 10 of the median. In ${percent(off)} of the versions the film is thrown off instead of eaten. The threshold falls by more than 2 % in ${percent(falling)}: only what is eaten adds up heat between pulses; throwing off from below takes its heat from one pulse alone.`,
  };
}

interface Asked {
  readonly fluence: number;
  readonly passes?: number;
  readonly speed?: number;
  readonly overlap?: (u: number) => number;
}

/** A raster with width 10-200 ns, spot 0.05-0.5 mm, and the stated fluence as peak or as mean, half and half. */
function spanned(u: Float64Array, asked: Asked): PulsedCase {
  const spot = between(50e-6, 0.5e-3, u[1]);
  const overlap = asked.overlap ? asked.overlap(u[3]) : 0.5;
  const pitch = spot * (1 - overlap);
  return {
    width: between(10e-9, 200e-9, u[0]),
    spot,
    fluencePeak: asked.fluence * (u[2] < 0.5 ? 1 : 2),
    frequency: (asked.speed ?? 2) / pitch,
    pitch,
    spacing: pitch,
    passes: asked.passes ?? 1,
  };
}

const SPANNED = "width 10-200 ns, spot 0.05-0.5 mm, stated fluence taken as peak or as mean, half and half";

/** Overlap of a paper that does not tell it. */
const anyOverlap = (u: number) => 0.5 + 0.4 * u;

export function bluesAndReds(): RowAnswer {
  const model = modelOf("aluminium-6061", [[["polyurethane-topcoat", "mid"]]], 96);
  const at = unknowns(model.draws.length, 4);
  const answers = model.draws.map((draw, i) =>
    [1.8e4, 3.2e4, 8e4].map(
      (fluence) => rasterOf(model, draw, spanned(at[i], { fluence, overlap: anyOverlap }))().residueFraction,
    ),
  );
  const asPublished = share(answers, ([low, middle]) => low > 0.05 && middle <= 0.05);
  const line = (k: number, what: string, published: string) => ({
    what,
    unit: "share",
    band: bandOf(answers.map((a) => a[k])),
    published,
    met: null,
  });
  return {
    id: "E2",
    how: `polyurethane, mid colour, usual thickness, on 6061; one pass, overlap 50-90 % both ways; ${SPANNED}`,
    checks: [
      line(0, "left behind at 1.8 J/cm²", "some"),
      line(1, "left behind at 3.2 J/cm²", "none"),
      line(2, "left behind at 8.0 J/cm²", "none"),
    ],
    why: `left at 1.8 and clean at 3.2 J/cm² in ${percent(asPublished)} of the versions, clean at 8.0 J/cm² in ${percent(share(answers, (a) => a[2] <= 0.05))}. How many pulses meet each place is not known and decides it.`,
  };
}

export function aircraftPaint(): RowAnswer {
  const model = modelOf(
    "aluminium-6061",
    [
      [
        ["polyurethane-topcoat", "white"],
        ["epoxy-primer", "mid"],
      ],
    ],
    48,
  );
  const at = unknowns(model.draws.length, 4);
  const asked = { fluence: 5.09e4, speed: 0.7, overlap: (u: number) => 0.3 + 0.5 * u };
  const results = model.draws.map((draw, i) => rasterOf(model, draw, spanned(at[i], asked))());
  return {
    id: "E3",
    how: `white polyurethane over mid epoxy primer, usual thicknesses, on 6061; one pass at 700 mm/s, overlap 30-80 %; ${SPANNED}`,
    checks: [
      {
        what: "left behind",
        unit: "share",
        band: bandOf(results.map((r) => r.residueFraction)),
        published: "none",
        met: null,
      },
      {
        what: "melt depth",
        unit: "µm",
        band: bandOf(results.map((r) => r.meltDepth * 1e6)),
        published: "undamaged",
        met: null,
      },
    ],
    why: `clean (at most 5 % left) in ${percent(share(results, (r) => r.residueFraction <= 0.05))}, metal unmelted in ${percent(share(results, (r) => r.meltedShare <= 0.01))} of the versions over these ranges; not counted before width and mean or peak are known.`,
  };
}

const side = (value: number, of: readonly number[]): string => {
  const ratio = bandOf(of).median / value;
  return ratio > 1 ? `a factor of ${ratio.toFixed(1)} below` : `a factor of ${(1 / ratio).toFixed(1)} above`;
};

export function paintThreshold(): RowAnswer {
  const of = (metalId: string) => {
    const model = modelOf(metalId, everyPaint, 48);
    const at = unknowns(model.draws.length, 3);
    return model.draws.map((draw, i) => {
      const u = Float64Array.of(at[i][0], at[i][1], 0, at[i][2]);
      const base = spanned(u, { fluence: 1.73e4, overlap: anyOverlap });
      const run = rasterOf(model, draw, base);
      return 0.5 * 1.73 * leastAt(0.02, 50, (scale) => run(scale).residueFraction <= 0.5);
    });
  };
  const aluminium = of("aluminium-6061");
  const steel = of("steel-low-carbon");
  const line = (what: string, values: readonly number[]) => ({
    what,
    unit: "J/cm²",
    band: bandOf(values),
    published: "about 1.73",
    met: null,
  });
  return {
    id: "E4",
    how: "alkyd, polyurethane, acrylic, epoxy, each white, mid and dark at usual thickness on 6061 and on low-carbon steel; one pass, overlap 50-90 %; mean fluence at which half of the area comes off; width 10-200 ns, spot 0.05-0.5 mm",
    checks: [
      line("mean fluence of removal", [...aluminium, ...steel]),
      line("on aluminium alone", aluminium),
      line("on steel alone", steel),
    ],
    why: `the published figure lies ${side(1.73, [...aluminium, ...steel])} the median of what is predicted.`,
  };
}

/** 24 J/cm² at 50 % overlap has to be enough. */
export function acrylicBound(): RowAnswer {
  const model = modelOf(
    "aluminium-6061",
    COLOURS.map((colour) => [["acrylic", colour]] as const),
    48,
  );
  const at = unknowns(model.draws.length, 2);
  const needed = model.draws.map((draw, i) => {
    const run = rasterOf(model, draw, spanned(Float64Array.of(at[i][0], at[i][1], 0), { fluence: 24e4 }));
    return 24 * leastAt(0.004, 20, (scale) => run(scale).residueFraction <= 0.05);
  });
  const band = bandOf(needed);
  const within = share(needed, (f) => f <= 24);
  const asMean = share(needed, (f) => f <= 48);
  return {
    id: "E12",
    how: "acrylic, white, mid and dark at usual thickness, on 6061 (the library lacks 7075); one pass at 2000 mm/s, 50 % overlap; width 10-200 ns, spot 0.05-0.5 mm; peak fluence that leaves at most 5 % of the area",
    checks: [
      {
        what: "peak fluence needed",
        unit: "J/cm²",
        band,
        published: "at most 24 (48 if 24 was the mean)",
        met: band.median <= 24,
      },
      {
        what: "versions in which 24 J/cm² (peak) is enough",
        unit: "share",
        band: flat(within),
        published: "it was enough",
        met: within >= 0.5,
      },
    ],
    why: `an upper bound: met when at least half of the versions need no more. With 24 J/cm² as the mean it is enough in ${percent(asMean)}.`,
  };
}
