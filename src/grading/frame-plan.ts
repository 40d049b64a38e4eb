import { fromSI, invalid, requireInRange, requireInteger } from "#units";
import type { FrameLayout, FrameMarker, GreyStep } from "./frame.ts";
import { greySteps } from "./grey-steps.ts";
import { markerDictionary } from "./marker-bits.ts";
import { requirePaper } from "./paper-size.ts";

export interface FrameOptions {
  /** number of the coupon in its trial, 1 to 31; decides which markers its frame carries and no other frame does */
  readonly coupon: number;
  /** m, side of a marker; 9 mm is the least that is found at 5 px/mm, 12 mm where nothing is said */
  readonly markerSize?: number;
  /** m of white between coupon, markers and grey steps; at least one marker cell; 3 mm where nothing is said */
  readonly gap?: number;
  /** CIELAB lightness of the seven steps, dark to light, as measured on the printed sheet */
  readonly measuredGreys?: readonly number[];
}

/** markers of one frame: corners and middles of the sides */
export const markersPerFrame = 8;
/** m below which a marker is not found in a photograph of the whole plate, 7.5 px a cell at 5 px/mm (own measurement) */
const leastMarker = 9e-3;
/** m, least width of a grey step: 16 px at 4 px/mm */
const leastStep = 4e-3;
/** m, widest step that still gains anything */
const widestStep = 12e-3;
/** m, head line, and ruler with its words, above and below the frame on the sheet */
export const sheetHead = 5.5e-3;
export const sheetFoot = 8.5e-3;

/** Numbers of the markers of a coupon's frame, in the order of `framePlaces`. coupon: 1 to 31. */
export function frameIds(coupon: number): readonly number[] {
  requireInteger("coupon", coupon, 1, Math.floor(markerDictionary.size / markersPerFrame));
  return Array.from({ length: markersPerFrame }, (_, k) => markersPerFrame * (coupon - 1) + k);
}

/** Where the markers stand, around the coupon from its lower left corner, and how a person finds them. */
export const framePlaces = [
  { across: 0, up: 0, words: "lower left corner" },
  { across: 1, up: 0, words: "middle of the lower side" },
  { across: 2, up: 0, words: "lower right corner" },
  { across: 2, up: 1, words: "middle of the right side" },
  { across: 2, up: 2, words: "upper right corner" },
  { across: 1, up: 2, words: "middle of the upper side" },
  { across: 0, up: 2, words: "upper left corner" },
  { across: 0, up: 1, words: "middle of the left side" },
] as const;

/** Where a marker stands on the sheet, in words; null for a marker of another frame. */
export function markerPlace(frame: FrameLayout, id: number): string | null {
  const place = frame.markers.findIndex((marker) => marker.id === id);
  return framePlaces[place]?.words ?? null;
}

/**
 * The frame for a coupon: eight markers around it, and two strips of the same seven grey steps on opposite sides, running
 * against each other, so that light which falls off across the plate is told apart from lightness.
 * coupon: m, 20 to 380 mm a side. Where it is too short for a strip, the frame stands further off.
 * Throws InvalidInput in one line where a size is out of range or not even A3 holds the frame. Source: own layout.
 */
export function frameFor(
  coupon: { readonly width: number; readonly height: number },
  options: FrameOptions,
): FrameLayout {
  const { width, height } = coupon;
  requireInRange("coupon width", fromSI(width, "mm"), "mm", 20, 380);
  requireInRange("coupon height", fromSI(height, "mm"), "mm", 20, 380);
  const size = options.markerSize ?? 12e-3;
  requireInRange("marker size", fromSI(size, "mm"), "mm", fromSI(leastMarker, "mm"), 40);
  const gap = options.gap ?? Math.max(3e-3, size / markerDictionary.cells);
  requireInRange("gap", fromSI(gap, "mm"), "mm", Number(fromSI(size / markerDictionary.cells, "mm").toFixed(6)), 20);

  const ids = frameIds(options.coupon);
  // White of `gap` on both sides of a strip; it runs from a corner marker to the one in the middle of its side.
  const leastSide = 2 * (7 * leastStep + gap) + size;
  const along = width >= height;
  const wide = Math.max(width, along ? leastSide : 2 * gap + size);
  const high = Math.max(height, along ? 2 * gap + size : leastSide);
  const left = (width - wide) / 2 - gap - size;
  const bottom = (height - high) / 2 - gap - size;
  const stepX = wide / 2 + gap + size / 2;
  const stepY = high / 2 + gap + size / 2;
  const markers = framePlaces.map(
    ({ across, up }, k): FrameMarker => ({ id: ids[k]!, x: left + across * stepX, y: bottom + up * stepY, size }),
  );
  const tones = greySteps(options.measuredGreys);
  const length = (along ? stepX : stepY) - size - 2 * gap;
  const step = Math.min(widestStep, length / tones.length);
  const start = size + gap + (length - step * tones.length) / 2;
  const first = tones.map((lightness, k): GreyStep => {
    const offset = start + k * step;
    return along
      ? { x: left + offset, y: bottom, width: step, height: size, lightness }
      : { x: left, y: bottom + offset, width: size, height: step, lightness };
  });
  // The same strip turned by half a turn about the middle of the coupon.
  const second = first.map((g): GreyStep => ({ ...g, x: width - g.x - g.width, y: height - g.y - g.height }));
  const frame: FrameLayout = {
    couponWidth: width,
    couponHeight: height,
    markers,
    greys: [...first, ...second],
    greysMeasured: options.measuredGreys !== undefined,
  };
  const outer = frameExtent(frame);
  requirePaper("frame sheet", outer.width, outer.height + sheetHead + sheetFoot);
  return frame;
}

/** What the frame takes on its sheet with the white around its markers, m from the coupon's lower left corner. */
export function frameExtent(frame: FrameLayout): {
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
} {
  const white = Math.max(...frame.markers.map((m) => m.size)) / 4;
  const left = Math.min(...frame.markers.map((m) => m.x)) - white;
  const bottom = Math.min(...frame.markers.map((m) => m.y)) - white;
  const right = Math.max(...frame.markers.map((m) => m.x + m.size)) + white;
  const top = Math.max(...frame.markers.map((m) => m.y + m.size)) + white;
  return { left, bottom, width: right - left, height: top - bottom };
}

/**
 * The frame as it came out of the printer. Positions and sizes are scaled about the middle of the coupon, which keeps its
 * own size and is laid in the middle of its window.
 * ratio: measured over nominal length of the ruler, 0.9 to 1.1. Throws InvalidInput outside, or where the print has
 * shrunk so far that the coupon covers markers or grey steps. Source: own.
 */
export function scaled(frame: FrameLayout, ratio: number): FrameLayout {
  requireInRange("print scale", ratio, "", 0.9, 1.1);
  const { couponWidth, couponHeight } = frame;
  const x = (at: number): number => couponWidth / 2 + ratio * (at - couponWidth / 2);
  const y = (at: number): number => couponHeight / 2 + ratio * (at - couponHeight / 2);
  const markers = frame.markers.map((m) => ({ ...m, x: x(m.x), y: y(m.y), size: m.size * ratio }));
  const greys = frame.greys.map((g) => ({
    ...g,
    x: x(g.x),
    y: y(g.y),
    width: g.width * ratio,
    height: g.height * ratio,
  }));
  const boxes = [...markers.map((m) => ({ ...m, width: m.size, height: m.size })), ...greys];
  const covered = boxes.some((b) => b.x < couponWidth && b.x + b.width > 0 && b.y < couponHeight && b.y + b.height > 0);
  if (covered) return invalid("print scale", ratio, "", "the coupon would cover markers: print again at 100 %");
  return { ...frame, markers, greys };
}
