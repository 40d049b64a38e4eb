/** The browser has no decoder for this file. */
export class Undecodable extends Error {
  override name = "Undecodable";
}
