import type { WindowMap } from "#terms";
import { formatNumber } from "#units";

/**
 * A map in characters: in each place the tenths of the chance of clean and undamaged together (the least that the two leave
 * for both), K where it is kept by 95 of 100 versions, a dot where the machine cannot be set so.
 */
export function mapLines(map: WindowMap): string[] {
  const columns = map.x.length;
  const labels = map.y.map((v) => formatNumber(v, 3));
  const wide = Math.max(...labels.map((l) => l.length));
  const rows = map.y.map((_, row) => {
    const cells = map.x.map((__, column) => cellOf(map, row * columns + column));
    return `  ${labels[row]!.padStart(wide)}  ${cells.join(" ")}`;
  });
  const ends = `${formatNumber(map.x[0]!, 3)} to ${formatNumber(map.x.at(-1)!, 3)}`;
  return [
    `Map: ${map.yName} upwards, ${map.xName} from ${ends} to the right, all else as in the setting shown`,
    "  (chance of clean and undamaged in tenths; K: kept by 95 of 100 versions under drift; ·: beyond the machine)",
    ...rows.reverse(),
  ];
}

function cellOf(map: WindowMap, at: number): string {
  if (map.beyond?.[at]) return "·";
  if (map.conservative?.[at]) return "K";
  const both = Math.max(0, map.probabilityClean[at]! + map.probabilityUndamaged[at]! - 1);
  return String(Math.min(9, Math.floor(10 * both)));
}
