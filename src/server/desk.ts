import type { Store } from "#store";
import type { Access } from "./access.ts";
import type { ServerLimits } from "./limits.ts";

export interface ServerOptions {
  readonly store: Store;
  /** folder of the built pages; null serves the API alone */
  readonly webRoot: string | null;
  /** folder of the example's files */
  readonly examples: string;
  /** ISO 8601 instant */
  readonly now: () => string;
  /** versions of the physics behind an answer; 64 */
  readonly draws?: number;
  /** who may come in from beyond the loopback address; nobody when left out */
  readonly access?: Access;
  /** what differs from the usual limits */
  readonly limits?: Partial<ServerLimits>;
}

/** Everything that handlers need besides the request. */
export interface Desk extends ServerOptions {
  readonly draws: number;
}
