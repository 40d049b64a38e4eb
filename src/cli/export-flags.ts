import { invalid } from "#units";

export interface ExportFlags {
  readonly trial?: string;
  readonly trialId?: string;
  readonly data?: string;
  readonly outcomes?: string;
  readonly enquiry?: string;
  readonly window?: string;
  readonly comparison?: string;
  readonly table?: string;
  readonly library?: readonly string[];
  readonly out: string;
}

/** The data folder, which a trial by its id needs. */
export const dataOf = (flags: ExportFlags): string =>
  flags.data ?? invalid("data", "missing", "", "a trial by its id is looked for in a data folder");
