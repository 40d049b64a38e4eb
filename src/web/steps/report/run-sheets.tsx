import { Anchor } from "@mantine/core";
import { runSheetUrl } from "../../api/answers.ts";
import type { TrialRecord } from "../../api/trials.ts";
import { words } from "../../words/index.ts";

const say = words.papers;

/** The sheets that the trials of this part are burned from. */
export function RunSheets({
  trials,
  language,
}: {
  readonly trials: readonly TrialRecord[];
  readonly language: string;
}) {
  if (trials.length === 0) return null;
  return (
    <section className="sheet stack tight">
      <h2>{say.runSheets}</h2>
      <p className="quiet small">{say.runSheetsLead}</p>
      <ul>
        {trials.map(({ trial }) => (
          <li key={trial.id}>
            <span className="row middle">
              <Anchor href={runSheetUrl(trial.id, "pdf", language)} download>
                {say.runSheet(trial.id, "PDF")}
              </Anchor>
              <Anchor href={runSheetUrl(trial.id, "html", language)} target="_blank" rel="noopener">
                {say.html}
              </Anchor>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
