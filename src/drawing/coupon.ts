import { fromSI } from "#units";
import type { Coupon, PlannedPatch, Trial } from "#terms";
import { label, wrapText } from "./lettering.ts";
import { type OutcomeState, outcomeMark, outcomeWords } from "./outcome-mark.ts";
import { paperTheme, type Theme } from "./palette.ts";
import { hatch, picture, type PictureOptions } from "./picture.ts";
import { element } from "./xml.ts";

/** Printed on every coupon where the caller has nothing more exact to say. */
export const couponCaution =
  "Class 4 laser: only in the controlled area that the laser safety officer has released, with eyewear for this " +
  "wavelength, extraction running and local law kept. Predicted values are not a release of the settings.";

export interface CouponOptions extends PictureOptions {
  /** true: 1 mm in the picture is 1 mm on paper; false: the same picture free to be scaled */
  readonly trueSize: boolean;
  /** what was seen, by patch number */
  readonly outcomes?: Readonly<Record<number, OutcomeState>>;
  readonly cautions?: readonly string[];
}

const margin = 4;
const headerHeight = 9;
const rulerHeight = 12;

/** A coupon with its patches; one picture unit is one millimetre. */
export function couponSvg(trial: Trial, coupon: Coupon, options: CouponOptions): string {
  const theme = options.theme ?? paperTheme;
  const id = options.id ?? `coupon-${coupon.coupon}`;
  const mm = { width: fromSI(coupon.width, "mm"), height: fromSI(coupon.height, "mm") };
  const width = Math.max(mm.width, 100) + 2 * margin;
  const cautionLines = (options.cautions ?? [couponCaution]).flatMap((text) => wrapText(text, 2.3, width - 2 * margin));
  const rulerY = headerHeight + mm.height + 6;
  const keyY = rulerY + rulerHeight - 3;
  const keyHeight = options.outcomes === undefined ? 0 : 6;
  const cautionY = keyY + keyHeight + 3;
  const patches = trial.patches.filter((patch) => patch.coupon === coupon.coupon);
  const seen = patches.map((p) => options.outcomes?.[p.patch]).filter((s) => s !== undefined).length;
  const description =
    `Coupon ${mm.width} by ${mm.height} mm with ${patches.length} patches, numbered, run order below the number; ` +
    (seen > 0 ? `${seen} of them graded.` : "none of them graded yet.");
  return picture(
    {
      id,
      title: options.title ?? `Coupon ${coupon.label} of trial ${trial.id}`,
      description: options.description ?? description,
      width,
      height: cautionY + cautionLines.length * 3.1 + 1,
      unit: options.trueSize ? "mm" : "",
      background: theme.paper,
    },
    element(
      "defs",
      {},
      hatch(`${id}-untouched`, theme.line, 1.6, 0.35, 45),
      hatch(`${id}-cleaned`, theme.line, 1.6, 0.35, 0),
    ),
    label(margin, 4.2, `Coupon ${coupon.label}`, 3.2, theme.ink, { "font-weight": "bold" }),
    label(
      margin,
      7.6,
      `trial ${trial.id} · set-up ${trial.setupId} · seed ${trial.seed}${spacingWords(trial)}`,
      2.3,
      theme.muted,
    ),
    element(
      "g",
      { transform: `translate(${margin} ${headerHeight})` },
      element("rect", { x: 0, y: 0, ...mm, fill: theme.panel, stroke: theme.ink, "stroke-width": 0.3 }),
      element("path", { d: `M0 ${mm.height - 2.5}V${mm.height}H2.5Z`, fill: theme.ink }),
      ...patches.map((patch) => patchMark(patch, mm.height, id, theme, options.outcomes?.[patch.patch])),
    ),
    ruler(rulerY, theme),
    keyHeight > 0 ? key(keyY + 2, theme) : "",
    ...cautionLines.map((line, i) => label(margin, cautionY + 2 + i * 3.1, line, 2.3, theme.ink)),
  );
}

function patchMark(
  patch: PlannedPatch,
  couponHeight: number,
  id: string,
  theme: Theme,
  state: OutcomeState | undefined,
): string {
  const [x, width, height] = [fromSI(patch.x, "mm"), fromSI(patch.width, "mm"), fromSI(patch.height, "mm")];
  const y = couponHeight - fromSI(patch.y, "mm") - height;
  const box = { x, y, width, height };
  const reference = patch.role === "untouched" || patch.role === "cleaned-reference";
  const size = Math.min(3.2, height * 0.28);
  const small = size * 0.62;
  const lines: string[] = [element("rect", { ...box, fill: theme.paper, stroke: theme.ink, "stroke-width": 0.2 })];
  if (reference)
    lines.push(
      element("rect", { ...box, fill: `url(#${id}-${patch.role === "untouched" ? "untouched" : "cleaned"})` }),
    );
  lines.push(label(x + 0.8, y + size + 0.3, String(patch.patch), size, theme.ink, { "font-weight": "bold" }));
  const under = roleWords(patch);
  if (reference) {
    const backing = { x: x + 0.3, width: width - 0.6, fill: theme.paper };
    lines.splice(2, 0, element("rect", { ...backing, y: y + 0.3, width: size * 1.7, height: size + 0.5 }));
    lines.splice(3, 0, element("rect", { ...backing, y: y + height - small - 1.2, height: small + 0.9 }));
  }
  lines.push(label(x + 0.8, y + height - 0.9, under, small, theme.muted));
  if (patch.wait !== undefined && patch.wait > 0)
    lines.push(label(x + 0.8, y + height - 1.3 - small, `wait ${Math.ceil(patch.wait)} s`, small, theme.ink));
  if (state !== undefined && !reference) {
    lines.push(outcomeMark(state, x + width * 0.62, y + height * 0.48, height * 0.13, theme));
    const letter = outcomeWords[state].letter;
    lines.push(label(x + width - 1, y + size * 0.8 + 0.4, letter, small, theme.ink, { "text-anchor": "end" }));
  }
  return element("g", {}, ...lines);
}

/** Gap and longest wait, where they were worked out. */
function spacingWords({ spacing }: Trial): string {
  if (spacing === undefined) return "";
  const gap = ` · gap ${Number(fromSI(spacing.gap, "mm").toFixed(1))} mm`;
  return spacing.wait > 0 ? `${gap} · wait first where a patch says so` : gap;
}

function roleWords(patch: PlannedPatch): string {
  if (patch.role === "untouched") return "untouched";
  if (patch.role === "cleaned-reference") return "cleaned ref.";
  const again = patch.replicateOf === null ? "" : ` = ${patch.replicateOf}`;
  return `run ${patch.runOrder}${again}`;
}

/** Fifty millimetres, so that a printer's scaling is noticed before the coupon is used. */
function ruler(y: number, theme: Theme): string {
  let d = `M${margin} ${y}h50`;
  for (let k = 0; k <= 10; k++) d += `M${margin + 5 * k} ${y}v${k % 2 === 0 ? 2 : 1.2}`;
  return (
    element("path", { d, stroke: theme.ink, "stroke-width": 0.2, fill: "none" }) +
    label(margin + 52, y + 1.6, "50 mm: measure before use", 2.3, theme.muted)
  );
}

function key(y: number, theme: Theme): string {
  const states: readonly OutcomeState[] = ["good", "residue", "damaged", "unknown"];
  let x = margin + 1.2;
  const parts: string[] = [];
  for (const state of states) {
    const { letter, words } = outcomeWords[state];
    parts.push(outcomeMark(state, x, y, 1.1, theme), label(x + 2.2, y + 0.8, `${letter} ${words}`, 2.2, theme.ink));
    x += 7 + words.length * 1.32;
  }
  return element("g", {}, ...parts);
}
