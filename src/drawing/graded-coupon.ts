import type { PatchVerdict } from "#grading";
import { fromSI } from "#units";
import { label, wrapText } from "./lettering.ts";
import { paperTheme, type Theme } from "./palette.ts";
import { picture, type PictureOptions } from "./picture.ts";
import { element } from "./xml.ts";

/** One patch as it is marked on its photograph. */
export interface MarkedPatch {
  readonly patch: number;
  /** m from the coupon's lower left corner */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly reference: boolean;
  readonly verdict: PatchVerdict;
  /** share of area; null where it is not settled */
  readonly residue: number | null;
  /** share of area below which nothing is told from nothing; null where a person said the residue */
  readonly detectionLimit: number | null;
  /** grade 0 to 4; null where it is not known */
  readonly metalCondition: number | null;
  /** whether a person accepted or overruled the reading */
  readonly ruled: "accepted" | "overruled" | null;
}

export interface GradedCouponOptions extends PictureOptions {
  /** m */
  readonly width: number;
  readonly height: number;
  readonly label: string;
  readonly trial: string;
  /** address of the rectified photograph; null where none was read */
  readonly photo: string | null;
  readonly cautions: readonly string[];
  /** true for a file that is opened or printed by itself: 1 mm in the picture is 1 mm on paper */
  readonly trueSize?: boolean;
}

/** Letter, words and line of each verdict: told apart by letter and line first, colour second. */
export const verdictMarks: Readonly<Record<PatchVerdict, { readonly letter: string; readonly dash: string | null }>> = {
  clean: { letter: "C", dash: null },
  residue: { letter: "R", dash: "3 1" },
  "near the limit": { letter: "L", dash: "1.2 0.8" },
  "not settled": { letter: "?", dash: "0.5 0.7" },
};

const colourOf = (verdict: PatchVerdict, theme: Theme): string =>
  verdict === "clean" ? theme.accent : verdict === "residue" ? theme.residue : theme.ink;

const metalKey = "✓ accepted by a person   ✎ overruled   M1 discoloured   M2 micro-melted   M3 melted   M4 distorted";
const margin = 3;
const head = 8;

/** A graded coupon: its photograph rectified, every patch outlined with number, verdict and residue. Unit: mm. */
export function gradedCouponSvg(patches: readonly MarkedPatch[], options: GradedCouponOptions): string {
  const theme = options.theme ?? paperTheme;
  const [width, height] = [fromSI(options.width, "mm"), fromSI(options.height, "mm")];
  const whole = Math.max(width, 110) + 2 * margin;
  const cautions = options.cautions.flatMap((text) => wrapText(text, 2.3, whole - 2 * margin));
  const keyY = head + height + 4.5;
  const count = (verdict: PatchVerdict): number => patches.filter((p) => !p.reference && p.verdict === verdict).length;
  const verdicts = Object.keys(verdictMarks) as PatchVerdict[];
  return picture(
    {
      id: options.id ?? "graded-coupon",
      title: options.title ?? `Coupon ${options.label} of trial ${options.trial} as photographed`,
      description:
        options.description ??
        `Photograph laid flat, ${patches.length} patches outlined: ${verdicts.map((v) => `${count(v)} ${v}`).join(", ")}.`,
      width: whole,
      height: keyY + 6.6 + cautions.length * 3.1,
      unit: options.trueSize ? "mm" : "",
      background: theme.paper,
    },
    label(margin, 4.2, `Coupon ${options.label}, trial ${options.trial}`, 3.2, theme.ink, { "font-weight": "bold" }),
    element(
      "g",
      { transform: `translate(${margin} ${head - 1.5})` },
      options.photo === null
        ? element("rect", { x: 0, y: 0, width, height, fill: theme.panel, stroke: theme.line, "stroke-width": 0.3 })
        : element("image", { x: 0, y: 0, width, height, href: options.photo, preserveAspectRatio: "none" }),
      ...patches.map((patch) => mark(patch, height, theme)),
    ),
    key(verdicts, keyY, theme),
    label(margin, keyY + 3.4, metalKey, 2.2, theme.muted),
    ...cautions.map((line, k) => label(margin, keyY + 8 + k * 3.1, line, 2.3, theme.ink)),
  );
}

function mark(patch: MarkedPatch, couponHeight: number, theme: Theme): string {
  const [x, width, height] = [fromSI(patch.x, "mm"), fromSI(patch.width, "mm"), fromSI(patch.height, "mm")];
  const y = couponHeight - fromSI(patch.y, "mm") - height;
  const box = { x, y, width, height, fill: "none" };
  const colour = patch.reference ? theme.muted : colourOf(patch.verdict, theme);
  const { letter, dash } = verdictMarks[patch.verdict];
  const size = Math.min(2.8, height * 0.24);
  const line = dash === null || patch.reference ? {} : { "stroke-dasharray": dash };
  const seen = patch.ruled === null ? "" : patch.ruled === "accepted" ? " ✓" : " ✎";
  const words = patch.reference ? String(patch.patch) : `${patch.patch} ${letter}${seen}`;
  const share = patch.reference ? "ref." : shareWords(patch);
  // Paper below the letters: photographs have every tone.
  const plate = (w: number, h: number, top: number): string =>
    element("rect", { x, y: top, width: Math.min(width, w), height: h, fill: theme.paper, "fill-opacity": 0.88 });
  const wide = (text: string, of: number): number => text.length * of * 0.62 + 1;
  return element(
    "g",
    {},
    element("rect", { ...box, stroke: theme.paper, "stroke-width": 1 }),
    element("rect", { ...box, stroke: colour, "stroke-width": 0.55, ...line }),
    plate(wide(words, size), size * 1.3, y),
    label(x + 0.5, y + size, words, size, theme.ink, { "font-weight": "bold" }),
    plate(wide(share, size * 0.8), size * 1.05, y + height - size * 1.05),
    label(x + 0.5, y + height - size * 0.25, share, size * 0.8, theme.ink),
  );
}

/** Residue, and the metal where it changed. What lies below the detection limit is not said to be nothing. */
function shareWords({ residue, detectionLimit, metalCondition }: MarkedPatch): string {
  const hidden = residue !== null && detectionLimit !== null && residue < detectionLimit;
  const words = residue === null ? "not settled" : hidden ? `< ${percent(detectionLimit)}` : percent(residue);
  return metalCondition === null || metalCondition === 0 ? words : `${words}, M${metalCondition}`;
}

const percent = (share: number): string => {
  const value = 100 * share;
  return `${value < 9.95 ? Number(value.toFixed(1)) : value.toFixed(0)} %`;
};

function key(verdicts: readonly PatchVerdict[], y: number, theme: Theme): string {
  let x = margin;
  const parts: string[] = [];
  for (const verdict of verdicts) {
    const { letter, dash } = verdictMarks[verdict];
    const line = dash === null ? {} : { "stroke-dasharray": dash };
    parts.push(
      element("path", {
        d: `M${x} ${y - 0.7}h5`,
        stroke: colourOf(verdict, theme),
        "stroke-width": 0.6,
        fill: "none",
        ...line,
      }),
      label(x + 6, y, `${letter} ${verdict}`, 2.2, theme.ink),
    );
    x += 11 + verdict.length * 1.35;
  }
  return element("g", {}, ...parts);
}
