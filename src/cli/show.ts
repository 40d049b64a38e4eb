/** JSON as scripts read it: one object, two spaces. */
export function json(value: unknown): string {
  return JSON.stringify(value, null, 2);
}

export function cautionLines(cautions: readonly string[]): string[] {
  return ["Cautions", ...cautions.map((c) => `  ! ${c}`)];
}

/** Words of the metal condition, 0 to 4. */
export const GRADES = ["unchanged", "discoloured", "micro-melted", "melted", "distorted"] as const;
