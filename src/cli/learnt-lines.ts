import { learntRows } from "#report";
import type { FitChecks, LearntNumber } from "#terms";
import { formatNumber } from "#units";

/** Properties and shapes that are named, and how far one must have moved: own choice. */
const NAMED_MOST = 4;
const MOVED_LEAST = 0.25;

/** What the patches pinned down, as a table, and what moved most behind it. */
export function learntLines({ pinned, properties, shifts }: FitChecks): string[] {
  const head = { name: "What was learnt", before: "before", after: "after", left: "spread left" };
  const rows = [head, ...learntRows(pinned).map((r) => ({ ...r, name: `  ${r.name}` }))];
  const wide = (read: (row: (typeof rows)[number]) => string) => Math.max(...rows.map((row) => read(row).length));
  const [name, before, after] = [wide((r) => r.name), wide((r) => r.before), wide((r) => r.after)];
  const table = rows.map((r) =>
    `${r.name.padEnd(name)}  ${r.before.padEnd(before)}  ${r.after.padEnd(after)}  ${r.left}`.trimEnd(),
  );
  const moved = [...properties, ...shifts]
    .filter((n) => movedBy(n) >= MOVED_LEAST)
    .sort((a, b) => movedBy(b) - movedBy(a))
    .slice(0, NAMED_MOST)
    .map(movedWords);
  return [
    ...(pinned.length > 0 ? table : ["What was learnt"]),
    moved.length > 0
      ? `  moved most, in spreads of the library: ${moved.join(", ")}`
      : "  no single property moved far: the patches tell of the edges, not of what lies behind them",
  ];
}

const shiftOf = (n: LearntNumber): number => n.posterior.median - n.prior.median;

/** Larger of the way that the middle went and of the share of the spread that went. */
const movedBy = (n: LearntNumber): number => Math.max(Math.abs(shiftOf(n)), 1 - n.spreadLeft);

function movedWords(n: LearntNumber): string {
  const shift = shiftOf(n);
  const way =
    Math.abs(shift) < 0.05 ? "where it was" : `${formatNumber(Math.abs(shift), 2)} ${shift < 0 ? "lower" : "higher"}`;
  return `${plainName(n.name)} ${way} (known to ${formatNumber(n.spreadLeft, 2)})`;
}

/** "layer:epoxy-primer:mid:absorption" is the absorption of mid epoxy primer; shapes have names in words already. */
function plainName(name: string): string {
  const pieces = name.split(":");
  if (pieces.length < 2) return name;
  const property = pieces.at(-1)!.replaceAll("-", " ");
  const of = pieces.slice(1, -1).reverse().join(" ").replaceAll("-", " ");
  return of === "" ? property : `${property} of ${of}`;
}
