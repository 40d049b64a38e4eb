import { z } from "zod";
import type { WindowMap } from "#terms";
import { finite, share } from "./fields.ts";
import { tidy } from "./wire-numbers.ts";

export const mapSchema = z.strictObject({
  xName: z.string().meta({ description: "name of the axis, its unit in brackets" }),
  yName: z.string(),
  x: z.array(finite).meta({ description: "in the unit that xName states" }),
  y: z.array(finite),
  probabilityClean: z.array(share).meta({ description: "row major, y outer" }),
  probabilityUndamaged: z.array(share),
  conservative: z.array(z.boolean()).nullable().optional().meta({
    description: "true where 95 of 100 versions of the physics keep it under drift; null where not worked out",
  }),
  beyond: z
    .array(z.boolean())
    .optional()
    .meta({ description: "true where the machine cannot be set so; chances are 0 there; left out: it can everywhere" }),
  points: z
    .array(z.strictObject({ patch: z.int(), x: finite, y: finite }))
    .optional()
    .meta({ description: "where the burned patches lie on these two axes" }),
  recommendedAt: z
    .strictObject({ x: finite, y: finite })
    .nullable()
    .optional()
    .meta({ description: "where the recommended setting lies; null without one" }),
});

/** A map keeps the units that its names state. */
export function mapToWire(map: WindowMap): z.output<typeof mapSchema> {
  const { points = [], recommendedAt: at = null, conservative, beyond } = map;
  return {
    xName: map.xName,
    yName: map.yName,
    x: map.x.map(tidy),
    y: map.y.map(tidy),
    probabilityClean: map.probabilityClean.map(tidy),
    probabilityUndamaged: map.probabilityUndamaged.map(tidy),
    conservative: conservative === undefined ? null : [...conservative],
    ...(beyond === undefined ? {} : { beyond: [...beyond] }),
    points: points.map((p) => ({ patch: p.patch, x: tidy(p.x), y: tidy(p.y) })),
    recommendedAt: at === null ? null : { x: tidy(at.x), y: tidy(at.y) },
  };
}
