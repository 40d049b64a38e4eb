import { invalid, requireInteger } from "#units";

/** Refuses anything but a share above 0 and up to 1; returns it. */
export function share(name: string, value: number): number {
  if (!(value > 0 && value <= 1)) invalid(name, value, "", "above 0 and up to 1");
  return value;
}

/** Refuses anything but a whole number of passes, 1 or more; returns it. */
export function wholePasses(passes: number): number {
  return requireInteger("passes", passes, 1);
}
