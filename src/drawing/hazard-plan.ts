import type { HazardDistance, HazardDistances } from "#safety";
import { formatNumber } from "#units";
import { hazardRanges } from "./hazard-ranges.ts";
import { metres, pathStyles, planReach, reachText } from "./hazard-reach.ts";
import {
  breakMark,
  diffuseShape,
  fanShape,
  halfDisc,
  personHeight,
  personMark,
  type WorkPoint,
} from "./hazard-shapes.ts";
import { label, wrapText } from "./lettering.ts";
import { paperTheme, type Theme } from "./palette.ts";
import { picture, type PictureOptions } from "./picture.ts";
import { element } from "./xml.ts";

const WIDTH = 680;
const REACH = 170;
const WORK: WorkPoint = { x: 250, y: REACH + 24 };
const LABELS = 470;
const FAN_CUT = 225;

interface Plan {
  readonly theme: Theme;
  /** picture units per m */
  readonly scale: number;
  readonly fan: number;
}

/**
 * Plan of the nominal hazard zone to scale, seen from above, with a person for size: how far direct beam, mirror-like,
 * diffuse and even scatter reach for eye (filled) and skin (dashed). A path that reaches more than 20 times as far as
 * the shortest is cut with a break mark; below the plan every path stands on one logarithmic scale.
 * @param hazards hazardDistances: m, rad
 * @returns SVG
 * Throws InvalidInput for a distance that is negative or no number, and where no path of the plan reaches anywhere.
 */
export function hazardPlanSvg(hazards: HazardDistances, options: PictureOptions = {}): string {
  const theme = options.theme ?? paperTheme;
  const id = options.id ?? "hazard-plan";
  const { radius, shown } = planReach(hazards.distances);
  const plan: Plan = { theme, scale: REACH / radius, fan: hazards.fan };
  const parts = [
    ...shown.map(({ distance, cut }) => zone(distance, cut, plan)),
    part(theme),
    ...shown.map(({ distance, cut }, row) => nameOf(distance, cut, row, plan)),
    sizes(plan, radius),
  ];
  const below = hazardRanges(hazards.distances, { y: 2 * REACH + 100, width: WIDTH, theme });
  const caption = captionOf(hazards).flatMap((sentence) => wrapText(sentence, 11, WIDTH - 8));
  const top = below.bottom + 16;
  const lines = caption.map((line, i) => label(0, top + 15 * i, line, 11, theme.muted));
  const described = hazards.distances.map((d) => `${d.path}: ${reachText(d)}`).join("; ");
  return picture(
    {
      id,
      title: options.title ?? "Nominal hazard zone to scale, seen from above",
      description: options.description ?? `Reach of the light: ${described}. ${captionOf(hazards).join(" ")}`,
      width: WIDTH,
      height: top + 15 * caption.length,
      unit: "",
      background: theme.paper,
    },
    ...parts,
    below.svg,
    ...lines,
  );
}

function captionOf({ limit, note }: HazardDistances): string[] {
  const time = `${formatNumber(limit.duration, 3)} s of exposure`;
  return [
    `${time}. Eye by ${limit.eye.edition}, ${limit.eye.rule}; skin by ${limit.skin.edition}, ${limit.skin.rule}. Distances are rounded up and drawn for one flat face: a curved or tilted one throws light elsewhere.`,
    note,
  ];
}

function outline(distance: HazardDistance, metresOut: number, { scale, fan }: Plan): string {
  const { shape } = pathStyles[distance.path];
  const r = metresOut * scale;
  if (shape === "fan") return fanShape(WORK, r, fan);
  return shape === "lambert" ? diffuseShape(WORK, r) : halfDisc(WORK, r);
}

/** Eye zone filled, skin zone dashed; a cut one ends outside of the plan's radius with a break mark. */
function zone(distance: HazardDistance, cut: boolean, plan: Plan): string {
  const { theme, scale } = plan;
  const isFan = pathStyles[distance.path].shape === "fan";
  const edge = (isFan ? FAN_CUT : REACH + 14) / scale;
  const eye = element("path", {
    d: outline(distance, Math.min(distance.eyeShown, cut ? edge : distance.eyeShown), plan),
    fill: theme.accentSoft,
    "fill-opacity": 0.45,
    stroke: theme.accent,
    "stroke-width": 1.4,
  });
  const beyond = cut && distance.skinShown > edge;
  const skin =
    beyond || distance.skinShown === 0
      ? ""
      : element("path", {
          d: outline(distance, distance.skinShown, plan),
          fill: "none",
          stroke: theme.damage,
          "stroke-width": 1.2,
          "stroke-dasharray": "3 2.5",
        });
  const mark = !cut
    ? ""
    : isFan
      ? breakMark(WORK.x - FAN_CUT + 12, WORK.y, 0, theme)
      : breakMark(WORK.x, WORK.y - REACH - 7, Math.PI / 2, theme) +
        breakMark(WORK.x, WORK.y + REACH + 7, Math.PI / 2, theme);
  return element("g", {}, eye, skin, mark);
}

/** The part and the head before it: signs, not to scale. */
function part(theme: Theme): string {
  return (
    element("rect", { x: WORK.x - 5, y: WORK.y - 16, width: 5, height: 32, fill: theme.metal, stroke: theme.ink }) +
    label(WORK.x - 9, WORK.y + 30, "part", 11, theme.ink, { "text-anchor": "end" })
  );
}

/** Name and reach of a path at the right, with a line to its edge; the fan is named above it. */
function nameOf(distance: HazardDistance, cut: boolean, row: number, { theme, scale }: Plan): string {
  const { short, shape } = pathStyles[distance.path];
  const words = [short, `eye ${metres(distance.eyeShown)}`, `skin ${metres(distance.skinShown)}`];
  if (shape === "fan") words[0] = `${short}, where it passes the part`;
  if (cut) words.push("cut here, not to scale");
  if (shape === "fan")
    return words.map((line, i) => label(0, 14 + 14 * i, line, 11, i === 0 ? theme.ink : theme.muted)).join("");
  const y = 20 + 66 * row;
  const angle = -0.95 + 0.5 * row;
  const r = cut ? REACH + 14 : distance.eyeShown * scale * (shape === "lambert" ? Math.sqrt(Math.cos(angle)) : 1);
  const [x1, y1] = [WORK.x + r * Math.cos(angle), WORK.y + r * Math.sin(angle)];
  return (
    element("path", {
      d: `M${x1.toFixed(2)} ${y1.toFixed(2)}L${LABELS - 6} ${y + 4}`,
      stroke: theme.muted,
      "stroke-width": 0.8,
      fill: "none",
    }) + words.map((line, i) => label(LABELS, y + 8 + 14 * i, line, 11, i === 0 ? theme.ink : theme.muted)).join("")
  );
}

/** Scale bar of a round length and the person beside it. */
function sizes({ theme, scale }: Plan, radius: number): string {
  const power = 10 ** Math.floor(Math.log10(radius / 2));
  const length = ([5, 2, 1].find((m) => m * power <= radius / 2) ?? 1) * power;
  const y = 2 * REACH + 66;
  const [person, end] = [LABELS + 24, length * scale];
  return (
    element("path", {
      d: `M4 ${y - 4}v8M4 ${y}h${end.toFixed(3)}m0 -4v8`,
      stroke: theme.ink,
      "stroke-width": 1.4,
      fill: "none",
    }) +
    label(12 + end, y + 4, metres(length), 11, theme.ink) +
    personMark(person, y - 24, scale, theme) +
    label(LABELS, y + 4, `person, ${personHeight} tall, from above`, 11, theme.ink)
  );
}
