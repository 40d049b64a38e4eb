import { Anchor, NativeSelect } from "@mantine/core";
import { useState } from "react";
import { linkTo } from "../../app/route.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useAnswer } from "../../enquiry/use-answer.ts";
import { useLibrary } from "../../library/use-library.ts";
import { readWorkingSetting } from "../../live/kept-choice.ts";
import { surveyKey } from "../../live/survey-key.ts";
import { useKeptAnswer } from "../../live/use-long-work.ts";
import { SettingText } from "../../show/setting-text.tsx";
import { useUndoTarget } from "../../undo/undo-target.ts";
import { words } from "../../words/index.ts";
import { FumeList } from "./fume-list.tsx";
import { JobSection } from "./job-section.tsx";
import { SafetySection } from "./safety-section.tsx";
import { settingChoices } from "./setting-choices.ts";
import { ShopForm } from "./shop-form.tsx";
import { useSettingDetails } from "./use-setting-details.ts";
import { useShop } from "./use-shop.ts";
import "./economy.css";

const say = words.economy;

/** What can hurt, and what the order takes and costs, for one setting on one part. */
export function EconomyStep({ enquiryId, doc, part, partId, partEnquiry, problem, draft }: StepProps) {
  const { setups } = useLibrary();
  const nameOf = (id: string): string => setups.find((s) => s.id === id)?.name ?? id;
  const answer = useAnswer(enquiryId, partId);
  const partKey = surveyKey(enquiryId, part, doc);
  const survey = useKeptAnswer("survey", partKey);
  const shop = useShop(enquiryId);
  useUndoTarget({ ...shop, name: words.save.undoNames.shop });
  const choices = settingChoices(answer.part, survey, readWorkingSetting(enquiryId, partId), nameOf);
  const [chosen, setChosen] = useState<string | null>(null);
  const choice = choices.find((c) => c.id === chosen) ?? choices[0] ?? null;
  const { details, line } = useSettingDetails(partEnquiry !== null, partKey, partId, choice, shop.shop);
  useCautions(details?.cautions);
  const at = (step: "lasers" | "report") => linkTo({ enquiryId, step, query: { part: partId } });
  const newer = answer.outdated || (answer.line != null && draft.version > answer.line.enquiryVersion);
  const older = choice?.id === "answer" && newer;
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{say.title}</h1>
        <p className="lead">{say.lead}</p>
      </header>
      {problem ? <p className="note bad">{problem}</p> : null}
      {choice === null && answer.line !== undefined ? (
        <section className="empty">
          <h2>{say.emptyTitle}</h2>
          <p className="quiet">{answer.part === null ? say.empty : answer.part.words}</p>
          <p className="row">
            <Anchor href={at("lasers")}>{say.toLasers}</Anchor>
            <Anchor href={at("report")}>{say.toAnswer}</Anchor>
          </p>
        </section>
      ) : null}
      {choice === null ? null : (
        <section className="sheet stack tight">
          <div className="row apart middle">
            {choices.length > 1 ? (
              <NativeSelect
                label={say.which}
                value={choice.id}
                onChange={(event) => setChosen(event.currentTarget.value)}
                data={choices.map((c) => ({ value: c.id, label: c.label }))}
              />
            ) : (
              <h2>{nameOf(choice.setupId)}</h2>
            )}
            <span className={choice.tag === say.footing.proven ? "tag good" : "tag warn"}>{choice.tag}</span>
          </div>
          <SettingText setting={choice.setting} />
          <p className="quiet small">{choice.words}</p>
          {older ? <p className="note warn">{say.older}</p> : null}
        </section>
      )}
      {line ? (
        <p className="note bad" role="alert">
          {line}
        </p>
      ) : null}
      {choice !== null && details === null && line === null ? (
        <p className="quiet" role="status">
          {say.working}
        </p>
      ) : null}
      {choice !== null && details !== null ? (
        <>
          <SafetySection details={details} />
          <FumeList flags={details.fume} />
          {details.job === null ? null : <JobSection job={details.job} typed={shop.typed} />}
        </>
      ) : null}
      <ShopForm enquiryId={enquiryId} draft={shop} />
    </div>
  );
}
