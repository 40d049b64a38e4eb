import type { ArchiveWire } from "#contract";
import type { Setting } from "#terms";
import { call } from "./client.ts";

type TrialWire = ArchiveWire["trials"][number];

/** A trial of the archive, its setting in SI. */
export interface ArchiveHit extends Omit<TrialWire, "recommended"> {
  readonly recommended: (Omit<NonNullable<TrialWire["recommended"]>, "setting"> & { readonly setting: Setting }) | null;
}

export interface ArchivePage extends Omit<ArchiveWire, "trials"> {
  readonly trials: readonly ArchiveHit[];
}

/** What is asked: in words, or by a part of an enquiry; neither: the newest. */
export interface ArchiveAsk {
  readonly text?: string | undefined;
  readonly enquiry?: string | undefined;
  readonly part?: string | undefined;
  readonly laser?: string | undefined;
}

export async function askArchive(ask: ArchiveAsk, offset: number, signal?: AbortSignal): Promise<ArchivePage> {
  const query = new URLSearchParams({ offset: String(offset) });
  for (const [key, value] of Object.entries(ask)) if (value) query.set(key, value);
  const page = await call<ArchiveWire>("GET", `/archive?${query}`, undefined, signal);
  // The schemas weigh more than the first page; they come with the first setting that needs them.
  if (page.trials.every((t) => t.recommended === null)) return { ...page, trials: page.trials.map(bare) };
  const { settingFromWire } = await import("#contract");
  return {
    ...page,
    trials: page.trials.map((trial) => ({
      ...trial,
      recommended: trial.recommended && {
        ...trial.recommended,
        setting: settingFromWire(trial.recommended.setting),
      },
    })),
  };
}

const bare = (trial: TrialWire): ArchiveHit => ({ ...trial, recommended: null });
