import { z } from "zod";
import type { BeamCheck, Estimate } from "#gauging";
import { finite, finiteOrNull, share, words } from "./fields.ts";
import { out, outOrNull, tidy } from "./wire-numbers.ts";

const estimateSchema = z
  .strictObject({ value: finite, standardError: finite, low: finite, high: finite })
  .meta({ id: "estimate", description: "low to high is the 95 % interval" });

const measured = (estimate: Estimate, unit: string): z.output<typeof estimateSchema> => ({
  value: out(estimate.value, unit),
  standardError: out(estimate.standardError, unit),
  low: out(estimate.low, unit),
  high: out(estimate.high, unit),
});

/** What `beam-check --json` prints. */
export const beamCheckSchema = z
  .strictObject({
    groups: z.array(
      z.strictObject({
        pulses: z.int(),
        defocus_mm: finite,
        marks: z.int(),
        unmarked: z.int().meta({ description: "sites without a mark" }),
        spotDiameter_um: estimateSchema.meta({ description: "1/e² diameter; of ellipses the geometric mean" }),
        spotDiameterX_um: estimateSchema.nullable(),
        spotDiameterY_um: estimateSchema.nullable(),
        thresholdEnergy_mJ: estimateSchema,
        thresholdFluence_J_per_cm2: estimateSchema.meta({ description: "in the middle of the beam" }),
        correlation: finite.meta({ description: "of the errors of spot and threshold energy" }),
        diameterScatter_um: finiteOrNull.meta({ description: "of one reading; null where it was given" }),
        cautions: words,
      }),
    ),
    incubation: z
      .strictObject({ exponent: estimateSchema, firstThresholdFluence_J_per_cm2: estimateSchema, misfitChance: share })
      .nullable(),
    focus: z
      .strictObject({
        waistDiameter_um: estimateSchema,
        position_mm: estimateSchema,
        rayleighLength_mm: estimateSchema,
        beamQualityM2: estimateSchema,
      })
      .nullable(),
    library: z
      .strictObject({ laser: z.string(), lens: z.string(), spotDiameter_um: finite, measuredOverLibrary: finite })
      .nullable(),
    cautions: words,
  })
  .meta({ title: "Scourlight beam check" });

export type BeamCheckWire = z.output<typeof beamCheckSchema>;

export function beamCheckToWire(
  check: BeamCheck,
  library: BeamCheckWire["library"],
  cautions: readonly string[],
): BeamCheckWire {
  const diameter = (estimate: Estimate) => {
    const twice = measured(estimate, "um");
    return {
      value: 2 * twice.value,
      standardError: 2 * twice.standardError,
      low: 2 * twice.low,
      high: 2 * twice.high,
    };
  };
  return {
    groups: check.groups.map((g) => ({
      pulses: g.pulses,
      defocus_mm: out(g.defocus, "mm"),
      marks: g.spot.marks.length,
      unmarked: g.unmarked,
      spotDiameter_um: diameter(g.spot.radius),
      spotDiameterX_um: g.ellipse === null ? null : diameter(g.ellipse.x.radius),
      spotDiameterY_um: g.ellipse === null ? null : diameter(g.ellipse.y.radius),
      thresholdEnergy_mJ: measured(g.spot.thresholdEnergy, "mJ"),
      thresholdFluence_J_per_cm2: measured(g.spot.thresholdFluence, "J/cm2"),
      correlation: tidy(g.spot.correlation),
      diameterScatter_um: outOrNull(g.spot.diameterScatter, "um"),
      cautions: [...g.cautions],
    })),
    incubation: check.incubation && {
      exponent: measured(check.incubation.exponent, ""),
      firstThresholdFluence_J_per_cm2: measured(check.incubation.first, "J/cm2"),
      misfitChance: tidy(check.incubation.misfit),
    },
    focus: check.focus && {
      waistDiameter_um: diameter(check.focus.waist),
      position_mm: measured(check.focus.position, "mm"),
      rayleighLength_mm: measured(check.focus.rayleighLength, "mm"),
      beamQualityM2: measured(check.focus.beamQuality, ""),
    },
    library,
    cautions: [...check.cautions, ...cautions],
  };
}
