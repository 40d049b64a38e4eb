import { coordinate, element } from "./xml.ts";
import type { Theme } from "./palette.ts";

/** Seen from above: the work in a point, the face of the part looking to the right, the head to the right of it. */
export interface WorkPoint {
  readonly x: number;
  readonly y: number;
}

const to = (x: number, y: number): string => `${coordinate(x)} ${coordinate(y)}`;
const STEPS = 96;

/** Half disc in front of the face: light that may go anywhere. `r` in picture units. */
export function halfDisc({ x, y }: WorkPoint, r: number): string {
  return `M${to(x, y - r)}A${coordinate(r)} ${coordinate(r)} 0 0 1 ${to(x, y + r)}Z`;
}

/** Reach of a Lambertian reflection: r·√cos θ around the normal of the face. */
export function diffuseShape({ x, y }: WorkPoint, r: number): string {
  const points = Array.from({ length: STEPS + 1 }, (_, i) => {
    const angle = (i / STEPS - 0.5) * Math.PI;
    // At the ends the cosine is 0, of which rounding may make less.
    const reach = r * Math.sqrt(Math.max(0, Math.cos(angle)));
    return to(x + reach * Math.cos(angle), y + reach * Math.sin(angle));
  });
  return `M${points.join("L")}Z`;
}

/** Direct beam past the part, to the left: a sector as wide as the beam can point. */
export function fanShape({ x, y }: WorkPoint, r: number, fan: number): string {
  const half = Math.min(fan, Math.PI * 0.98) / 2;
  const [dx, dy] = [r * Math.cos(half), r * Math.sin(half)];
  return `M${to(x, y)}L${to(x - dx, y - dy)}A${coordinate(r)} ${coordinate(r)} 0 0 0 ${to(x - dx, y + dy)}Z`;
}

/** Two short strokes across a line that is cut, square to `angle` (rad, from the right, downwards). */
export function breakMark(x: number, y: number, angle: number, theme: Theme): string {
  const stroke = (shift: number): string => {
    const [ax, ay] = [x + shift * Math.cos(angle), y + shift * Math.sin(angle)];
    const [nx, ny] = [7 * Math.cos(angle + 1.2), 7 * Math.sin(angle + 1.2)];
    return `M${to(ax - nx, ay - ny)}L${to(ax + nx, ay + ny)}`;
  };
  return element("path", { d: stroke(-3) + stroke(3), stroke: theme.ink, "stroke-width": 1.4, fill: "none" });
}

/** m, of a person 1.75 m tall seen from above: shoulders, chest, head (rounded from body measures, no source) */
const PERSON = { shoulders: 0.46, chest: 0.26, head: 0.17 } as const;
export const personHeight = "1.75 m";

/** The person to scale, looking at the work; `scale` in picture units per m. A small one gets a line that points at it. */
export function personMark(x: number, y: number, scale: number, theme: Theme): string {
  const stroke = { stroke: theme.ink, "stroke-width": Math.min(1, 0.03 * scale) };
  const head = (PERSON.head / 2) * scale;
  const nose = `M${to(x - head * 0.3, y - head * 0.95)}L${to(x, y - head * 1.5)}L${to(x + head * 0.3, y - head * 0.95)}Z`;
  const [rx, ry] = [(PERSON.shoulders / 2) * scale, (PERSON.chest / 2) * scale];
  return (
    element("ellipse", { cx: x, cy: y, rx, ry, fill: theme.metal, ...stroke }) +
    element("path", { d: nose, fill: theme.ink }) +
    element("circle", { cx: x, cy: y, r: head, fill: theme.paper, ...stroke }) +
    (rx < 4 ? element("path", { d: `M${to(x, y + 14)}L${to(x, y + ry + 2)}`, stroke: theme.ink }) : "")
  );
}
