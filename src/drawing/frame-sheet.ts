import { type FrameLayout, frameExtent, greyCode, markerCells, sheetFoot, sheetHead } from "#grading";
import { fromSI } from "#units";
import { captureSteps } from "./capture-steps.ts";
import { cellOutline } from "./cell-outline.ts";
import { label, textWidth, wrapText } from "./lettering.ts";
import { printTheme, type Theme } from "./palette.ts";
import { picture, type PictureOptions } from "./picture.ts";
import { coordinate, element } from "./xml.ts";

export interface FrameSheetOptions extends PictureOptions {
  /** true: 1 mm in the picture is 1 mm on paper; false: the same picture free to be scaled */
  readonly trueSize: boolean;
  /** which coupon of which trial, as printed on the coupon itself */
  readonly coupon: string;
  readonly trial: string;
  /** how to photograph: below the frame, or inside the window, where the coupon covers it */
  readonly instructions?: "below" | "window";
}

const mm = (metres: number): number => fromSI(metres, "mm");
const hexGrey = (lightness: number): string => `#${greyCode(lightness).toString(16).padStart(2, "0").repeat(3)}`;
const textSize = 2.5;
const lineHeight = 3.7;
const laidWords = "its marked corner on the filled one";

/** Whether the instructions can be read inside the window of this frame. */
export function instructionsFitWindow(frame: FrameLayout): boolean {
  const [width, height] = [mm(frame.couponWidth), mm(frame.couponHeight)];
  return width > 60 && instructionLines(frame, width - 12).length * lineHeight + 14 <= height;
}

/**
 * The sheet that a coupon lies on while it is photographed; one picture unit is one millimetre. Markers and grey steps are
 * black and grey on the white of the sheet whatever the theme, because a camera has to read them.
 */
export function frameSheetSvg(frame: FrameLayout, options: FrameSheetOptions): string {
  const theme = options.theme ?? printTheme;
  const extent = frameExtent(frame);
  const [width, frameHeight] = [mm(extent.width), mm(extent.height)];
  const [head, foot] = [mm(sheetHead), mm(sheetFoot)];
  // From the coupon's corner, y up, to the picture's, y down.
  const box: Place = (x, y, w, h) => ({
    x: mm(x - extent.left),
    y: head + frameHeight - mm(y - extent.bottom + h),
    width: mm(w),
    height: mm(h),
  });
  const inWindow = options.instructions === "window" && instructionsFitWindow(frame);
  const below = inWindow ? [] : instructionLines(frame, width - 4);
  const belowY = head + frameHeight + foot;
  const ids = frame.markers.map((marker) => marker.id);
  const title = options.title ?? `Frame sheet for coupon ${options.coupon} of trial ${options.trial}`;
  return picture(
    {
      id: options.id ?? `frame-${ids[0]}`,
      title,
      description:
        options.description ??
        `White sheet with a window of ${mm(frame.couponWidth)} by ${mm(frame.couponHeight)} mm for the coupon, ` +
          `${ids.length} square markers around it, numbers ${Math.min(...ids)} to ${Math.max(...ids)}, two strips of ` +
          `grey steps and a ruler. ${captureSteps(frame).join(" ")}`,
      width,
      height: belowY + (below.length > 0 ? below.length * lineHeight + 4 : 0),
      unit: options.trueSize ? "mm" : "",
      background: "#ffffff",
    },
    headLine(title, `markers ${Math.min(...ids)} to ${Math.max(...ids)}`, width, theme),
    window(frame, box, theme, inWindow),
    ...frame.markers.map((marker) => markerMark(marker.id, box(marker.x, marker.y, marker.size, marker.size))),
    ...frame.greys.map((g) => element("rect", { ...box(g.x, g.y, g.width, g.height), fill: hexGrey(g.lightness) })),
    ruler(head + frameHeight + 1, width, theme),
    ...below.map((line, k) => instruction(line, 2, belowY + 4 + k * lineHeight, theme)),
  );
}

type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
type Place = (x: number, y: number, width: number, height: number) => Box;

function headLine(title: string, right: string, width: number, theme: Theme): string {
  const end = { "text-anchor": "end" };
  const size = Math.min(3.2, ((width - 6) / (textWidth(title, 1) + textWidth(right, 1))) * 0.95);
  return (
    label(2, 4, title, size, theme.ink, { "font-weight": "bold" }) +
    label(width - 2, 4, right, size * 0.8, theme.muted, end)
  );
}

/** The window in a thin broken line, with the corner that is filled on the coupon too. */
function window(frame: FrameLayout, place: Place, theme: Theme, withInstructions: boolean): string {
  const box = place(0, 0, frame.couponWidth, frame.couponHeight);
  const { x, y, width, height } = box;
  const parts = [
    element("rect", { ...box, fill: "none", stroke: theme.muted, "stroke-width": 0.2, "stroke-dasharray": "2 1.5" }),
    element("path", { d: `M${x} ${y + height - 4}V${y + height}H${x + 4}Z`, fill: theme.ink }),
  ];
  if (withInstructions)
    parts.push(
      ...instructionLines(frame, width - 12).map((line, k) => instruction(line, x + 6, y + 8 + k * lineHeight, theme)),
    );
  else
    ["Lay the coupon here,", laidWords].forEach((line, k) => {
      const size = Math.min(3.2, (width - 4) / textWidth(laidWords, 1.05));
      parts.push(
        label(x + width / 2, y + height / 2 + (k - 0.3) * 1.5 * size, line, size, theme.muted, {
          "text-anchor": "middle",
        }),
      );
    });
  return element("g", {}, ...parts);
}

function markerMark(id: number, { x, y, width }: Box): string {
  const cells = markerCells(id);
  return element("path", {
    transform: `translate(${coordinate(x)} ${coordinate(y)})`,
    fill: "#000000",
    "fill-rule": "evenodd",
    d: cellOutline(cells, width / cells.length),
  });
}

/**
 * m, nominal length of the ruler on a frame sheet: as long as the sheet allows in steps of 10 mm, since the longer it is
 * the closer the print scale is known.
 */
export function rulerLength(frame: FrameLayout): number {
  return rulerFor(mm(frameExtent(frame).width)) / 1000;
}

/** mm */
const rulerFor = (width: number): number => Math.floor((width - 4) / 10) * 10;

function ruler(y: number, width: number, theme: Theme): string {
  const length = rulerFor(width);
  let d = `M2 ${y}h${length}`;
  for (let k = 0; k <= length / 5; k++) d += `M${2 + 5 * k} ${y}v${k % 2 === 0 ? 2.4 : 1.4}`;
  const words = `Measure this line from end to end: ${length} mm when printed at 100 %. Enter what you find.`;
  const size = Math.min(2.5, (width - 4) / textWidth(words, 1));
  return (
    element("path", { d, stroke: "#000000", "stroke-width": 0.2, fill: "none" }) +
    label(2, y + 5.6, words, size, theme.ink)
  );
}

interface Line {
  readonly words: string;
  readonly number: number | null;
}

function instructionLines(frame: FrameLayout, width: number): Line[] {
  return captureSteps(frame).flatMap((step, k) =>
    wrapText(step, textSize, width - 5).map((words, n): Line => ({ words, number: n === 0 ? k + 1 : null })),
  );
}

function instruction({ words, number }: Line, x: number, y: number, theme: Theme): string {
  const mark = number === null ? "" : label(x, y, String(number), textSize, theme.ink, { "font-weight": "bold" });
  return mark + label(x + 5, y, words, textSize, theme.ink);
}
