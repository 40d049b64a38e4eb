/** JSON as scripts read it: one object, two spaces. */
export function json(value: unknown): string {
  return JSON.stringify(value, null, 2);
}

export function cautionLines(cautions: readonly string[]): string[] {
  return ["Cautions", ...cautions.map((c) => `  ! ${c}`)];
}
