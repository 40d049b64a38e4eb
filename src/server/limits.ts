/** What one machine's server takes at most; larger or slower requests are refused in one line or cut off. */
export interface ServerLimits {
  /** B of JSON; gradings of a large coupon may have `gradingBytes` */
  readonly jsonBytes: number;
  readonly gradingBytes: number;
  /** B of CSV */
  readonly csvBytes: number;
  /** B of a packed archive */
  readonly archiveBytes: number;
  /** lists and objects inside one another */
  readonly jsonDepth: number;
  /** from one address */
  readonly requestsPerMinute: number;
  /** ms until the head of a request has to be there */
  readonly headTime: number;
  /** ms until the whole of it has to be there: a photograph of 30 MB over a workshop's radio takes a minute */
  readonly requestTime: number;
  /** ms that a connection may lie idle between requests */
  readonly idleTime: number;
  readonly connections: number;
}

export const serverLimits: ServerLimits = {
  jsonBytes: 5_000_000,
  gradingBytes: 20_000_000,
  csvBytes: 20_000_000,
  archiveBytes: 500_000_000,
  jsonDepth: 40,
  requestsPerMinute: 3000,
  headTime: 20_000,
  requestTime: 180_000,
  idleTime: 75_000,
  connections: 500,
};
