/** One axis of cells: widths and the distances that heat has to cross between their middles, m. */
export interface Axis {
  readonly width: Float64Array;
  readonly middle: Float64Array;
  /** edges, one more than cells */
  readonly edge: Float64Array;
}

/** Axis from its edges (m, ascending). */
export function axisOf(edges: readonly number[]): Axis {
  const n = edges.length - 1;
  return {
    edge: Float64Array.from(edges),
    width: Float64Array.from({ length: n }, (_, i) => edges[i + 1] - edges[i]),
    middle: Float64Array.from({ length: n }, (_, i) => 0.5 * (edges[i] + edges[i + 1])),
  };
}

/** Edges from 0: even cells to `fine`, then each wider than the one before by `growth`, until `reach` is passed. */
export function growingEdges(cell: number, fine: number, growth: number, reach: number): number[] {
  const even = Math.max(1, Math.round(fine / cell));
  const edges = Array.from({ length: even + 1 }, (_, i) => i * cell);
  let width = cell;
  while (edges[edges.length - 1] < reach) {
    width *= growth;
    edges.push(edges[edges.length - 1] + width);
  }
  return edges;
}

/** Edges that grow both ways from the stretch −ahead to behind. */
export function twoSidedEdges(cell: number, ahead: number, behind: number, growth: number, reach: number): number[] {
  const back = growingEdges(cell, ahead, growth, reach);
  const front = growingEdges(cell, behind, growth, reach);
  return [
    ...back
      .slice(1)
      .reverse()
      .map((x) => -x),
    ...front,
  ];
}
