/** A number as a message shows it: at most six digits, no binary tail. */
export const shown = (value: number): number => (Number.isFinite(value) ? Number(value.toPrecision(6)) : value);
