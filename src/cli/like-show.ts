import { type LikeWire, settingFromWire } from "#contract";
import { settingLine } from "#report";
import { formatNumber } from "#units";

/** A trial that was found, in a few lines; from its wire shape, so that it reads the same whoever searched. */
export function hitLines(hit: LikeWire["trials"][number]): string[] {
  const { trial, enquiry, part, likeness, words, burnedOn, planned, clean, damaged, recommended: r } = hit;
  const graded =
    clean === null ? `${hit.graded ?? 0} graded` : `${hit.graded} graded: ${clean} clean, ${damaged} damaged`;
  const learnt = hit.learnt.map(
    (l) =>
      `${(l.coordinate.split(":").pop() as string).replaceAll("-", " ")} ${l.mean < 0 ? "lower" : "higher"} by ${formatNumber(Math.abs(l.mean), 2)} (known to ${formatNumber(l.spread, 2)})`,
  );
  return [
    "",
    `${Math.round(100 * likeness)} %  trial ${trial} (enquiry ${enquiry}, part ${part})`,
    `  ${burnedOn}`,
    `  ${words.join(", ")}`,
    `  ${planned === null ? "the trial itself is not kept" : `${planned} patches planned`}, ${graded}`,
    ...(r
      ? [`  recommended then, ${r.proven ? "proven" : "not proven"}: ${settingLine(settingFromWire(r.setting))}`]
      : []),
    ...(hit.noWindow ? ["  no window was found among the settings tried"] : []),
    ...(learnt.length > 0 ? [`  learnt, in spreads of the library: ${learnt.join(", ")}`] : []),
  ];
}
