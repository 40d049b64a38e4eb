import { SegmentedControl } from "@mantine/core";
import { useQuery } from "@tanstack/react-query";
import { Suspense, useCallback, useEffect, useState } from "react";
import { getShop } from "../api/answers.ts";
import { listAnswers } from "../api/enquiries.ts";
import { listTrials } from "../api/trials.ts";
import { Boundary } from "../app/boundary.tsx";
import { goTo, linkTo, type Place } from "../app/route.ts";
import { TopBar } from "../app/top-bar.tsx";
import { useUndoKeys, useUndoTarget } from "../undo/undo-target.ts";
import { words } from "../words/index.ts";
import { surveyKey } from "../live/survey-key.ts";
import { useKeptAnswer } from "../live/use-long-work.ts";
import { type EnquiryDoc, partId, partIndex } from "./doc.ts";
import { HistoryDrawer } from "./history-drawer.tsx";
import { KnowledgePanel } from "./knowledge-panel.tsx";
import { JudgedOnly } from "./not-judged.tsx";
import { plainProblem } from "./plain-problem.ts";
import { SaveState, SaveTrouble } from "./save-state.tsx";
import { StepList } from "./step-list.tsx";
import { steps } from "./steps.ts";
import { stepStates } from "./step-states.ts";
import { CautionsContext } from "./cautions.ts";
import { useDraft } from "./use-draft.ts";
import { useEnquiryModel } from "./use-enquiry-model.ts";

interface Props {
  readonly enquiryId: string;
  readonly place: Place;
}

export function EnquiryPage({ enquiryId, place }: Props) {
  const draft = useDraft(enquiryId);
  const { enquiry, problem: line } = useEnquiryModel(draft.doc);
  const problem = plainProblem(draft.doc, line);
  const trials = useQuery({ queryKey: ["trials", enquiryId], queryFn: () => listTrials(enquiryId) });
  const answers = useQuery({ queryKey: ["answers", enquiryId], queryFn: () => listAnswers(enquiryId) });
  const shop = useQuery({ queryKey: ["shop", enquiryId], queryFn: () => getShop(enquiryId) });
  const [historyOpen, setHistoryOpen] = useState(false);
  const [cautions, setCautions] = useState<{ readonly at: string; readonly lines: readonly string[] } | null>(null);
  useUndoKeys();
  useUndoTarget(draft.doc === null ? null : { ...draft, name: words.save.undoNames.enquiry });
  const survey = useKeptAnswer("survey", draft.doc ? surveyKeyAt(enquiryId, draft.doc, place.partId) : "");
  const title = draft.doc?.title || words.list.untitled;
  useEffect(() => {
    document.title = `${title} · ${words.steps[place.step]} · ${words.frame.name}`;
    return () => {
      document.title = words.frame.name;
    };
  }, [title, place.step]);
  // A caution belongs to the setting that was shown; another step or part starts with the general ones.
  const at = `${place.step} ${place.partId}`;
  const show = useCallback((lines: readonly string[]) => setCautions({ at, lines }), [at]);

  if (!draft.doc)
    return (
      <>
        <TopBar />
        <main id="work" tabIndex={-1} className="page">
          <p className={draft.line ? "note bad" : "quiet"}>{draft.line ?? words.save.opening}</p>
          <p>
            <a href="#/enquiries">{words.frame.backToList}</a>
          </p>
        </main>
      </>
    );

  const doc = draft.doc;
  const index = partIndex(doc, place.partId);
  const part = doc.parts[index] ?? {};
  const id = partId(part, index);
  const mine = (trials.data ?? []).filter((t) => t.trial.partId === id);
  const resolved = enquiry?.parts.find((p) => p.id === id) ?? null;
  const Step = steps[place.step];
  return (
    <>
      <TopBar
        where={<Where title={title} invented={doc.invented ?? false} />}
        tools={<SaveState draft={draft} onHistory={() => setHistoryOpen(true)} />}
      />
      <HistoryDrawer enquiryId={enquiryId} draft={draft} opened={historyOpen} onClose={() => setHistoryOpen(false)} />
      <div className="enquiry">
        <StepList
          enquiryId={enquiryId}
          partId={id}
          now={place.step}
          states={stepStates(
            part,
            mine,
            answers.data?.answers.length ?? 0,
            shop.data?.version ?? 0,
            problem,
            survey !== null,
          )}
        />
        <main id="work" tabIndex={-1} className="work">
          <div className="stack">
            <SaveTrouble draft={draft} />
            {doc.parts.length > 1 ? (
              <SegmentedControl
                aria-label={words.steps.whichPart}
                data={doc.parts.map((p, i) => ({ value: partId(p, i), label: p.name || partId(p, i) }))}
                value={id}
                onChange={(value) => goTo(linkTo({ enquiryId, step: place.step, query: { part: value } }))}
                style={{ justifySelf: "start", maxWidth: "100%", overflowX: "auto" }}
              />
            ) : null}
            <CautionsContext value={show}>
              <Boundary key={`${place.step} ${id}`}>
                <Suspense fallback={<p className="quiet">{words.frame.opening}</p>}>
                  <JudgedOnly enquiryId={enquiryId} partId={id} part={part} step={place.step}>
                    <Step
                      enquiryId={enquiryId}
                      place={place}
                      draft={draft}
                      doc={doc}
                      part={part}
                      index={index}
                      partId={id}
                      enquiry={enquiry}
                      partEnquiry={resolved}
                      problem={problem}
                      trials={mine}
                    />
                  </JudgedOnly>
                </Suspense>
              </Boundary>
            </CautionsContext>
          </div>
        </main>
        <KnowledgePanel
          part={part}
          resolved={resolved}
          problem={problem}
          trials={mine}
          cautions={cautions?.at === at ? cautions.lines : []}
        />
      </div>
    </>
  );
}

function surveyKeyAt(enquiryId: string, doc: EnquiryDoc, partOf: string | null): string {
  return surveyKey(enquiryId, doc.parts[partIndex(doc, partOf)] ?? {}, doc);
}

function Where({ title, invented }: { readonly title: string; readonly invented: boolean }) {
  return (
    <>
      {title}
      {invented ? (
        <>
          {" "}
          <span className="tag">{words.list.invented}</span>
        </>
      ) : null}
    </>
  );
}
