/** Work that was stopped by whoever asked for it. */
export class Cancelled extends Error {
  override name = "Cancelled";
}
