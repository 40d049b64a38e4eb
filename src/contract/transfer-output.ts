import { z } from "zod";
import type { NextPatch, Setting } from "#terms";
import { finiteOrNull, share, words } from "./fields.ts";
import { settingSchema } from "./setting-schema.ts";
import { settingToWire } from "./setting-wire.ts";
import { nextPatchSchema, nextToWire } from "./window-output.ts";
import { outOrNull, tidy } from "./wire-numbers.ts";

/** What `transfer --json` prints: what a trial on one set-up says of another. */
export const transferSchema = z
  .strictObject({
    trial: z.string(),
    from: z.string().meta({ description: "set-up that the trial was burned on" }),
    laser: z.string().meta({ description: "set-up that it was carried to" }),
    lens: z.string().nullable().meta({ description: "lens that was kept to; null where all were looked at" }),
    setting: settingSchema.nullable().meta({ description: "null where none keeps the acceptance so widened" }),
    areaRate_m2_per_h: finiteOrNull,
    share: share.nullable().meta({ description: "share of the versions of the physics, widened, that keep it" }),
    verification: z
      .array(nextPatchSchema)
      .meta({ description: "to be burned before the setting is used, in this order" }),
    words,
    caveats: words,
    cautions: words,
    modelVersion: z.string(),
  })
  .meta({ id: "transfer", title: "Scourlight window carried to another set-up" });

export type TransferWire = z.output<typeof transferSchema>;

export interface TransferOutput {
  readonly trial: string;
  readonly from: string;
  readonly laser: string;
  readonly lens: string | null;
  readonly setting: Setting | null;
  /** m²/s */
  readonly areaRate: number;
  readonly share: number;
  readonly verification: readonly NextPatch[];
  readonly words: readonly string[];
  readonly caveats: readonly string[];
  readonly modelVersion: string;
}

/** Rate and share have no meaning without a setting and are null then. */
export function transferToWire(transfer: TransferOutput, cautions: readonly string[]): TransferWire {
  const { setting } = transfer;
  return {
    trial: transfer.trial,
    from: transfer.from,
    laser: transfer.laser,
    lens: transfer.lens,
    setting: setting === null ? null : settingToWire(setting),
    areaRate_m2_per_h: setting === null ? null : outOrNull(transfer.areaRate, "m2/h"),
    share: setting === null ? null : tidy(transfer.share),
    verification: transfer.verification.map(nextToWire),
    words: [...transfer.words],
    caveats: [...transfer.caveats],
    cautions: [...cautions],
    modelVersion: transfer.modelVersion,
  };
}
