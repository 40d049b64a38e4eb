import { agreementToWire, parseGradesCsv } from "#contract";
import { type Agreement, agreementOf, type Kappa, type PairAgreement } from "#gauging";
import { formatNumber } from "#units";
import { readText } from "./files.ts";
import { json } from "./show.ts";

export interface AgreementFlags {
  readonly grades: string;
  readonly order?: readonly string[];
  readonly json?: boolean;
}

/** `agreement`: how alike graders grade, and the share of wrong grades that this implies. */
export async function agreementVerb(flags: AgreementFlags): Promise<string> {
  const found = agreementOf(parseGradesCsv(await readText(flags.grades, "grades file")), flags.order ?? []);
  if (flags.json) return json(agreementToWire(found));
  return [
    `Grades ${found.grades.join(", ")}${found.ordered || found.grades.length === 2 ? "" : " (in no order: name it with --order to have near misses count less)"}`,
    ...found.pairs.flatMap(pairLines),
    ...found.without.map((line) => `  ! Not compared: ${line}.`),
    ...meaning(found),
  ].join("\n");
}

const percent = (share: number): string => `${formatNumber(100 * share, 2)} %`;
const plusMinus = (k: Kappa): string => `${formatNumber(k.kappa, 2)} ± ${formatNumber(k.standardError, 2)}`;

/** Bounds of kappa: aiag-msa. */
function word(kappa: number): string {
  if (kappa > 0.75) return "good agreement";
  return kappa < 0.4 ? "poor agreement" : "middling agreement";
}

function pairLines(pair: PairAgreement): string[] {
  const { kappa, linear, quadratic, wrongShare } = pair;
  return [
    `${pair.graders.join(" and ")}: ${kappa.items} patches, alike on ${percent(kappa.agreement)}`,
    `  kappa ${plusMinus(kappa)} (standard error): ${word(kappa.kappa)}${kappa.chance > 0.05 ? ", which may be chance" : ""}`,
    ...(linear === null || quadratic === null
      ? []
      : [`  near misses counted less: ${plusMinus(linear)} (linear), ${plusMinus(quadratic)} (quadratic)`]),
    `  implies that each grades ${percent(wrongShare.value)} of the patches wrong (95 %: ${percent(wrongShare.low)} to ${percent(wrongShare.high)})`,
  ];
}

function meaning({ pairs }: Agreement): string[] {
  const worst = pairs.reduce((a, b) => (b.wrongShare.value > a.wrongShare.value ? b : a));
  const { value, high } = worst.wrongShare;
  return [
    "For a trial",
    `  Reckon with ${percent(value)} wrong grades, up to ${percent(high)} (${worst.graders.join(" and ")}); what all get wrong alike stays unseen.`,
    value > 0.05
      ? "  More than one grade in twenty is wrong: grade by reference pictures, or measure, before burning a trial on these eyes."
      : "  A window allows for a few wrong grades in a hundred: this fits.",
    ...(worst.kappa.items < 30
      ? [`  ${worst.kappa.items} patches are few: 50, with as many doubtful ones as clear ones, narrow the interval.`]
      : []),
  ];
}
