import type { LaserSetup, Lens } from "#terms";
import { invalid } from "#units";

/** The lens of a set-up by id. Throws InvalidInput listing the known ids. */
export function lensOf(setup: LaserSetup, id: string): Lens {
  const found = setup.lenses.find((lens) => lens.id === id);
  return found ?? invalid("lens", id, "", `${setup.id} has ${setup.lenses.map((lens) => lens.id).join(", ")}`);
}

/** The lens in the middle of the list, the starting point where nobody asked for one. */
export function middleLens(setup: LaserSetup): Lens {
  const lens = setup.lenses[Math.floor((setup.lenses.length - 1) / 2)];
  return lens ?? invalid("lenses", 0, "", `${setup.id} needs at least one lens`);
}
