import { drawingWords } from "#report";
import { frameSheetSvg, type FrameSheetOptions, instructionsFitWindow, printTheme } from "#drawing";
import { findPaper, type FrameLayout, type Paper, type PaperName, paperMargin, requirePaper } from "#grading";
import { fromSI, toSI } from "#units";
import { setPaper } from "./compile.ts";

export interface FramePaperOptions extends Pick<FrameSheetOptions, "coupon" | "trial"> {
  /** sheets that the printer has, in order of preference; A4 and A3 where nothing is said */
  readonly papers?: readonly PaperName[];
}

/** The picture is as large as it says; nothing on the page may shrink it. */
const template = `
#let data = json(bytes(sys.inputs.data))
#set document(title: data.title, date: none)
#set text(font: "DejaVu Sans", size: 8pt, lang: data.language)
#set page(width: data.page.width * 1mm, height: data.page.height * 1mm, margin: data.page.margin * 1mm)
#set par(spacing: 0pt)
#align(center, image(bytes(data.svg), format: "svg", width: data.width * 1mm, height: data.height * 1mm, alt: data.alt))
`;

/**
 * The frame sheet at true size on the first paper that holds it. The instructions stand below the frame, or inside the
 * window where only that fits. Throws InvalidInput in one line where no paper holds it.
 */
export async function framePdf(frame: FrameLayout, options: FramePaperOptions): Promise<Uint8Array> {
  const { coupon, trial, papers } = options;
  const draw = (instructions: "below" | "window"): string =>
    frameSheetSvg(frame, { coupon, trial, instructions, trueSize: true, theme: printTheme });
  const { svg, paper } = choose(draw, papers, instructionsFitWindow(frame));
  const size = sizeOf(svg);
  return setPaper(template, {
    title: `Frame sheet for coupon ${coupon}, trial ${trial}`,
    language: "en",
    page: {
      width: fromSI(paper.width, "mm"),
      height: fromSI(paper.height, "mm"),
      margin: fromSI(paperMargin, "mm"),
    },
    svg,
    ...size,
    alt: drawingWords(svg),
  });
}

/** Smallest paper first, and on it the instructions below rather than under the coupon. */
function choose(
  draw: (instructions: "below" | "window") => string,
  papers: readonly PaperName[] = ["a4", "a3"],
  windowAllowed: boolean,
): { svg: string; paper: Paper } {
  const below = draw("below");
  const size = metres(below);
  if (!windowAllowed) return { svg: below, paper: requirePaper("frame sheet", size.width, size.height, papers) };
  const inside = draw("window");
  const least = metres(inside);
  for (const name of papers) {
    const roomy = findPaper(size.width, size.height, [name]);
    if (roomy !== null) return { svg: below, paper: roomy };
    const tight = findPaper(least.width, least.height, [name]);
    if (tight !== null) return { svg: inside, paper: tight };
  }
  return { svg: inside, paper: requirePaper("frame sheet", least.width, least.height, papers) };
}

function sizeOf(svg: string): { width: number; height: number } {
  const size = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg)!;
  return { width: Number(size[1]), height: Number(size[2]) };
}

function metres(svg: string): { width: number; height: number } {
  const { width, height } = sizeOf(svg);
  return { width: toSI(width, "mm"), height: toSI(height, "mm") };
}
