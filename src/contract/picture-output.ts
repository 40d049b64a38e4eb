import { z } from "zod";
import type { AreaFigures, PatchMap, PatchPicture } from "#patch";
import type { Setting } from "#terms";
import { finite, metalConditionField, share, words } from "./fields.ts";
import { settingSchema } from "./setting-schema.ts";
import { settingToWire } from "./setting-wire.ts";
import { out, tidy } from "./wire-numbers.ts";

const areaSchema = z
  .strictObject({
    residueFraction: share.meta({ description: "share of this area still covered" }),
    meltedShare: share,
    discolouredShare: share,
    metalPeakTemperature_K: finite,
    meltDepth_um: finite.meta({ description: "deepest" }),
    oxideThickness_nm: finite.meta({ description: "thickest" }),
    metalCondition: metalConditionField,
  })
  .nullable()
  .meta({ description: "null where the patch is too small to have such an area" });

/** What `picture --json` prints: one version of the physics, the central one. */
export const pictureSchema = z
  .strictObject({
    laser: z.string().meta({ description: "laser set-up id" }),
    setting: settingSchema,
    file: z.string().meta({ description: "the PNG that was written" }),
    width_px: z.int(),
    height_px: z.int(),
    seed: z.int().meta({ description: "seed of the texture" }),
    side_mm: finite.meta({ description: "side of the square patch" }),
    turns: z.enum(["outside, beam off", "outside, beam on", "inside, beam on"]),
    whole: areaSchema,
    interior: areaSchema,
    lineStarts: areaSchema,
    lineEnds: areaSchema,
    streaks: z
      .strictObject({
        coveredAcross: finite,
        coveredAlong: finite,
        fluenceAcross: finite,
        fluenceAlong: finite,
      })
      .nullable()
      .meta({
        description: "standard deviation from line to line (across) and along lines: covered share; bare fluence",
      }),
    tint: z
      .string()
      .meta({ description: "word for the tint of the thickest oxide amid the patch, or why there is none" }),
    legend: z.array(z.strictObject({ colour: z.string(), words: z.string() })),
    caveats: words,
    cautions: words.meta({ description: "to be read before the setting is used; they defer to local law" }),
  })
  .meta({ id: "picture", title: "Scourlight picture of a predicted patch" });

export type PictureWire = z.output<typeof pictureSchema>;

/** A view of a patch, and what the command that drew it knows besides. */
export interface PictureOutput {
  readonly laser: string;
  readonly setting: Setting;
  readonly file: string;
  readonly seed: number;
  readonly view: {
    readonly side: number;
    readonly turns: PictureWire["turns"];
    readonly map: Pick<PatchMap, "figures">;
    readonly picture: Pick<PatchPicture, "width" | "height" | "legend">;
    readonly tint: string;
    readonly caveats: readonly string[];
  };
  readonly cautions: readonly string[];
}

/** A picture in the units of its output. */
export function pictureToWire({ laser, setting, file, seed, view, cautions }: PictureOutput): PictureWire {
  const { whole, interior, lineStarts, lineEnds, streaks } = view.map.figures;
  return {
    laser,
    setting: settingToWire(setting),
    file,
    width_px: view.picture.width,
    height_px: view.picture.height,
    seed,
    side_mm: out(view.side, "mm"),
    turns: view.turns,
    whole: areaToWire(whole),
    interior: areaToWire(interior),
    lineStarts: areaToWire(lineStarts),
    lineEnds: areaToWire(lineEnds),
    streaks: streaks && {
      coveredAcross: tidy(streaks.coveredAcross),
      coveredAlong: tidy(streaks.coveredAlong),
      fluenceAcross: tidy(streaks.fluenceAcross),
      fluenceAlong: tidy(streaks.fluenceAlong),
    },
    tint: view.tint,
    legend: view.picture.legend.map((l) => ({ ...l })),
    caveats: [...view.caveats],
    cautions: [...cautions],
  };
}

function areaToWire(area: AreaFigures | null): PictureWire["whole"] {
  return (
    area && {
      residueFraction: tidy(area.residue),
      meltedShare: tidy(area.melted),
      discolouredShare: tidy(area.discoloured),
      metalPeakTemperature_K: tidy(area.peak),
      meltDepth_um: out(area.meltDepth, "um"),
      oxideThickness_nm: out(area.oxide, "nm"),
      metalCondition: area.metalCondition,
    }
  );
}
