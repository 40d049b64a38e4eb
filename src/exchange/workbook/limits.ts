import type { ZipLimits } from "../zip/zip-read.ts";

/** Far above any table that people fill by hand. */
export const workbookLimits: ZipLimits = { files: 2000, bytes: 100e6 };
