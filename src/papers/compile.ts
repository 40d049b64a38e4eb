import { NodeCompiler, type NodeTypstDocument } from "@myriaddreamin/typst-ts-node-compiler";
import { paperFonts } from "./fonts.ts";

/** Where a template could not be set. Nothing of the report's own words is in the message. */
export class PaperFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = "PaperFault";
  }
}

let compiler: NodeCompiler | null = null;

/**
 * Sets a template with its data as a tagged PDF that meets PDF/UA-1; what does not meet it is refused here rather
 * than written. No clock and no file of the machine is read, so the same data give the same bytes.
 */
export function setPaper(template: string, data: unknown): Uint8Array {
  return setPaperWithin(template, data, Number.POSITIVE_INFINITY)!;
}

/** As `setPaper`, or null where the paper would have more than `pages` pages. */
export function setPaperWithin(template: string, data: unknown, pages: number): Uint8Array | null {
  compiler ??= NodeCompiler.create({ fontArgs: [{ fontBlobs: paperFonts() }] });
  const compiled = compiler.compile({ mainFileContent: template, inputs: { data: JSON.stringify(data) } });
  const document = compiled.result;
  if (document === null || compiled.hasError()) {
    const error = compiled.takeError() ?? compiled.takeDiagnostics();
    throw new PaperFault(`the paper could not be set: ${JSON.stringify(error?.shortDiagnostics ?? "no reason given")}`);
  }
  const pdf = document.numOfPages > pages ? null : tagged(compiler, document);
  compiler.evictCache(10);
  return pdf;
}

function tagged(from: NodeCompiler, document: NodeTypstDocument): Uint8Array {
  try {
    return new Uint8Array(from.pdf(document, { pdfStandard: "ua-1", pdfTags: true }));
  } catch (fault) {
    throw new PaperFault(`the paper does not meet PDF/UA-1: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
}
