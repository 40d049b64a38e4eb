import type { LikeWire } from "#contract";

export interface LikeFlags {
  readonly data: string;
  readonly enquiry?: string;
  readonly part?: string;
  readonly laser?: string;
  readonly library?: readonly string[];
  readonly most: number;
  readonly json?: boolean;
}

/** What was found, with the number of trials that are like enough to be shown. */
export interface LikeFound {
  readonly wire: LikeWire;
  readonly near: number;
}
