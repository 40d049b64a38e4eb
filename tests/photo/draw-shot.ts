import { createRandom } from "#numerics";
import { markersPerFrame } from "#grading";
import { draw } from "./draw-patch.ts";
import type { Gleam } from "./lamp.ts";
import { shares } from "./ranges.ts";

/** One photograph. Anything here may be said instead of drawn; angles rad. */
export interface ShotDraw {
  readonly tilt: number;
  /** side of the room that the camera leans to */
  readonly towards: number;
  readonly roll: number;
  readonly focal: number;
  readonly fill: number;
  readonly radial: number;
  readonly shift: readonly [number, number];
  readonly fallOff: number;
  readonly elevation: number;
  /** side of the room that the lamp stands on */
  readonly side: number;
  readonly veil: number;
  readonly warmth: number;
  readonly white: number;
  readonly tone: number;
  readonly sharpening: number;
  readonly blur: number;
  readonly noise: number;
  readonly quality: number;
  /** index of a marker in the frame under a finger, or null */
  readonly covered: number | null;
  /** m, face of the coupon above the sheet */
  readonly rise: number;
  readonly metalGleam: Gleam;
  readonly coatGleam: Gleam;
}

const radians = Math.PI / 180;

/**
 * The draws of one photograph of a set: camera, lamp and phone stay for all photographs of one seed, hand and finger
 * change from `turn` to `turn` (0 to 3, quarters that sheet and coupon are turned by).
 */
export function drawShot(seed: number, turn: number): ShotDraw {
  const set = createRandom(seed).substream(7);
  const hand = createRandom(seed).substream(1000 + turn);
  const covered = hand.next() < shares.covered.share;
  const marker = hand.integer(markersPerFrame);
  const width = 0.07 + 0.06 * set.next();
  return {
    tilt: radians * draw(set, "tilt"),
    towards: 2 * Math.PI * set.next() + 0.05 * hand.normal(),
    roll: radians * draw(hand, "roll"),
    focal: draw(set, "focal"),
    fill: draw(hand, "fill"),
    radial: draw(set, "radial"),
    shift: [draw(hand, "shift"), draw(hand, "shift")],
    fallOff: draw(set, "fallOff"),
    elevation: radians * draw(set, "elevation"),
    side: 2 * Math.PI * set.next(),
    veil: draw(set, "veil"),
    warmth: draw(set, "warmth"),
    white: draw(hand, "white"),
    tone: draw(set, "tone"),
    sharpening: draw(set, "sharpening"),
    blur: draw(hand, "blur"),
    noise: draw(hand, "noise"),
    quality: Math.round(draw(hand, "quality")),
    covered: covered ? marker : null,
    rise: 0,
    metalGleam: { along: 0.05 + 0.04 * set.next(), across: 0.18 + 0.12 * set.next(), peak: draw(set, "metalGlare") },
    coatGleam: { along: width, across: width, peak: draw(set, "coatGlare") },
  };
}
