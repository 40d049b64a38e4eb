import { type ContourLine, contourLines } from "./contour.ts";
import { label, textWidth } from "./lettering.ts";
import { element } from "./xml.ts";

/** A place of a picture. */
interface Place {
  readonly x: number;
  readonly y: number;
}

/** Lines of P(clean and undamaged). */
export const bothLevels = [0.5, 0.8, 0.95] as const;
/** The field is light where these lines run, in every theme. */
export const fieldInk = "#1c1d20";

export function line(d: string, stroke: string, strokeWidth: number, dash: string | null): string {
  if (d === "") return "";
  return element("path", { d, fill: "none", stroke, "stroke-width": strokeWidth, "stroke-dasharray": dash });
}

/** Where along its longest line a level is written: the first of these shares that lies apart from the rest. */
const labelShares = [0.5, 0.35, 0.65, 0.2, 0.8] as const;
const labelApart = 30;

/** The levels in figures, apart from each other and from the recommended point. */
export function levelLabels(
  both: readonly number[],
  columns: number,
  toPoint: (p: readonly [number, number]) => Place,
  recommended: Place | null,
): string[] {
  const taken: Place[] = recommended === null ? [] : [recommended];
  return bothLevels.map((level) => {
    const lines = contourLines(both, columns, level);
    const longest = lines.reduce<ContourLine>((best, one) => (one.length > best.length ? one : best), []);
    if (longest.length < 6) return "";
    const places = labelShares.map((share) => toPoint(longest[Math.floor(share * longest.length)]!));
    const apart = (p: Place): boolean => taken.every((t) => Math.hypot(t.x - p.x, t.y - p.y) > labelApart);
    const place = places.find(apart) ?? places[0]!;
    taken.push(place);
    return levelLabel(String(level), place);
  });
}

function levelLabel(words: string, { x, y }: Place): string {
  const width = textWidth(words, 10) + 4;
  return (
    element("rect", { x: x - width / 2, y: y - 7, width, height: 13, rx: 3, fill: "#ffffff", opacity: 0.85 }) +
    label(x, y + 3.5, words, 10, fieldInk, { "text-anchor": "middle" })
  );
}
