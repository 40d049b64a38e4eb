import { burnedOn, type Hit, learntOf } from "#archive";
import { settingLine } from "#report";
import { formatNumber } from "#units";

export function hitLines({ case: one, likeness, words, found }: Hit<number>): string[] {
  const graded =
    found.clean === null
      ? `${found.graded ?? one.belief?.patches ?? 0} graded`
      : `${found.graded} graded: ${found.clean} clean, ${found.damaged} damaged`;
  const r = found.recommended;
  const learnt = learntOf(one).map(
    (l) =>
      `${(l.coordinate.split(":").pop() as string).replaceAll("-", " ")} ${l.mean < 0 ? "lower" : "higher"} by ${formatNumber(Math.abs(l.mean), 2)} (known to ${formatNumber(l.spread, 2)})`,
  );
  return [
    "",
    `${Math.round(100 * likeness)} %  trial ${one.trialId} (enquiry ${one.enquiryId}, part ${one.partId})`,
    `  ${burnedOn(one)}`,
    `  ${words.join(", ")}`,
    `  ${one.planned === null ? "the trial itself is not kept" : `${one.planned} patches planned`}, ${graded}`,
    ...(r ? [`  recommended then, ${r.proven ? "proven" : "not proven"}: ${settingLine(r.setting)}`] : []),
    ...(found.noWindow ? ["  no window was found among the settings tried"] : []),
    ...(learnt.length > 0 ? [`  learnt, in spreads of the library: ${learnt.join(", ")}`] : []),
  ];
}
