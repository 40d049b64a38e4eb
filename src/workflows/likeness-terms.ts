import type { ColourClass, LaserSetup, LayerKind, Metal, Metre, WeightedStack } from "#terms";

/** One layer as it is asked for: any of these kinds; what is null does not count. */
export interface LayerWish {
  readonly kinds: readonly LayerKind[];
  readonly colour: ColourClass | null;
  readonly thickness: Metre | null;
}

/** What is asked for; null or an empty list: does not count. Lists hold what would do equally well. */
export interface LikeQuery {
  /** outermost first */
  readonly layers: readonly LayerWish[];
  readonly metals: readonly Metal[];
  readonly setups: readonly LaserSetup[];
}

/** A query with its share, where the asking part may be one of several stacks. */
export interface WeightedQuery {
  readonly query: LikeQuery;
  readonly weight: number;
}

/** What a trial was burned on. */
export interface LikeCase {
  readonly mixture: readonly WeightedStack[];
  readonly setup: LaserSetup | null;
}
