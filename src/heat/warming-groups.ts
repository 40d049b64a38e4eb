/** Earlier lines of a raster, the recent ones each for themselves, the older ones in bands. */
export interface LineGroup {
  /** lines between the start of these lines and the start of the line at hand, mean of the group */
  readonly back: number;
  /** line spacings across to the middle of the group */
  readonly offset: number;
  /** lines in the group over all its passes, and lines side by side in it */
  readonly count: number;
  readonly breadth: number;
  /** 1: ran as the line at hand, −1: against it, 0: both in turn */
  readonly direction: 1 | -1 | 0;
}

/** How many line times a band may span, as a share of how long ago it was. */
const span = 0.3;
/** Lines nearer than this many spacings count one by one: a band would blur them. */
const single = 2;

function push(groups: LineGroup[], back: number, offset: number, passes: number, side: number): void {
  const alone = side === 1;
  const same = Math.abs(Math.round(offset)) % 2 === 0;
  if (alone || back > 8) {
    groups.push({ back, offset, count: passes * side, breadth: side, direction: alone ? (same ? 1 : -1) : 0 });
    return;
  }
  for (const direction of [1, -1] as const) {
    groups.push({ back, offset, count: (passes * side) / 2, breadth: side, direction });
  }
}

/** Lines from `high` down to `low` (indices in a pass) that lie `shift` line times further back than their place says. */
function pushRange(groups: LineGroup[], line: number, low: number, high: number, shift: number, passes: number): void {
  let m = high;
  while (m >= low) {
    const delta = line - m;
    let size = Math.max(1, Math.floor(span * (shift + delta)));
    if (Math.abs(delta) <= single) size = 1;
    else if (delta < 0) size = Math.min(size, -delta - single);
    size = Math.min(size, m - low + 1);
    push(groups, shift + delta + (size - 1) / 2, delta + (size - 1) / 2, passes, size);
    m -= size;
  }
}

/** Lines of the pass at hand written before line `line` (0-based), grouped. Source: own. */
export function linesInPass(line: number): LineGroup[] {
  const groups: LineGroup[] = [];
  pushRange(groups, line, 0, line - 1, 0, 1);
  return groups;
}

/**
 * All lines of earlier passes, seen from line `line` (0-based) of the last pass, grouped. lines: of one pass;
 * passes ≥ 1. Recent passes each for themselves, older ones together. Source: own.
 */
export function linesOfEarlierPasses(line: number, lines: number, passes: number): LineGroup[] {
  const groups: LineGroup[] = [];
  let pass = 1;
  while (pass < passes) {
    const together = Math.min(passes - pass, Math.max(1, Math.floor(span * pass)));
    pushRange(groups, line, 0, lines - 1, (pass + (together - 1) / 2) * lines, together);
    pass += together;
  }
  return groups;
}
