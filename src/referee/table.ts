import { type Judged, meltAgrees, peakAgrees } from "./judge.ts";

const micro = (m: number): string => (m * 1e6).toPrecision(3);
const ratio = (a: number, b: number): string => (b === 0 ? (a === 0 ? "-" : "melts only here") : (a / b).toFixed(3));

/** Table of judged cases in Markdown, with a sentence for each that disagrees. */
export function refereeTable(cases: readonly Judged[]): string {
  const head =
    "| metal | spot mm | speed or pulse | v·w/D | power / melting | rise K | fast / referee | column only | melt µm | fast / referee | column only | width µm | agree |\n" +
    "|---|---|---|---|---|---|---|---|---|---|---|---|---|";
  const rows = cases.map((c) => {
    const event = c.speed === null ? `${((c.duration ?? 0) * 1e9).toFixed(0)} ns` : `${c.speed} m/s`;
    const agree = peakAgrees(c.referee, c.fast) && meltAgrees(c.referee, c.fast) ? "yes" : "no";
    return `| ${[
      c.metal,
      (c.spot * 1e3).toFixed(2),
      event,
      c.peclet === null ? "" : c.peclet.toPrecision(3),
      c.over,
      c.referee.surfaceRise.toFixed(0) + (c.boils ? " (boils)" : ""),
      ratio(c.fast.surfaceRise, c.referee.surfaceRise),
      ratio(c.columnOnly.surfaceRise, c.referee.surfaceRise),
      micro(c.referee.meltDepth),
      ratio(c.fast.meltDepth, c.referee.meltDepth),
      ratio(c.columnOnly.meltDepth, c.referee.meltDepth),
      micro(c.referee.meltWidth),
      agree,
    ].join(" | ")} |`;
  });
  return [head, ...rows].join("\n");
}
