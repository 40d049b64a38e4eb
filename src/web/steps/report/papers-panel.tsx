import { Anchor, NativeSelect, SegmentedControl, TextInput } from "@mantine/core";
import { useDebouncedValue } from "@mantine/hooks";
import type { PartDetailsWire } from "#contract";
import { paperUrl, reportUrl } from "../../api/answers.ts";
import { words } from "../../words/index.ts";
import { type PaperChoice, type PaperId, paperIds } from "./paper-choice.ts";

const say = words.papers;

interface Props {
  readonly enquiryId: string;
  readonly partId: string;
  readonly answerId: string;
  readonly part: PartDetailsWire | null;
  readonly choice: PaperChoice;
  readonly change: (change: Partial<PaperChoice>) => void;
}

/** Procedure and commissioning stand on a setting; without one there is nothing to work from. */
const canBe = (paper: PaperId, part: PartDetailsWire | null): boolean =>
  paper === "report" || (part !== null && (paper === "offer" || part.setting !== null));

/** One paper at a time: what is said on it, its preview as it will print, and its downloads. */
export function PapersPanel({ enquiryId, partId, answerId, part, choice, change }: Props) {
  const paper = canBe(choice.paper, part) ? choice.paper : "report";
  const typed = { ...choice, answer: answerId };
  // The preview follows once typing rests, so that it does not flicker.
  const [settled] = useDebouncedValue(typed, 500);
  const url = (format: "pdf" | "html", from: typeof typed): string => {
    if (paper === "report") return reportUrl(answerId, format);
    const { language, revision, approver, validUntil, answer } = from;
    return paperUrl(enquiryId, partId, paper, format, {
      answer,
      language,
      revision: revision.trim(),
      approver: approver.trim(),
      validUntil: paper === "offer" ? validUntil : "",
    });
  };
  const name = say.kinds[paper];
  return (
    <section className="stack">
      <div className="papers-kind">
        <SegmentedControl
          aria-label={say.paper}
          value={paper}
          onChange={(value) => change({ paper: value as PaperId })}
          data={paperIds.map((id) => ({ value: id, label: say.kinds[id], disabled: !canBe(id, part) }))}
        />
      </div>
      <p className="quiet small">
        {say.kindHelp[paper]}
        {paper === "report" ? ` ${say.reportEnglish}` : ""}
        {part !== null && part.setting === null ? ` ${part.words}` : ""}
      </p>
      {paper === "report" ? null : (
        <div className="row papers-fields">
          <NativeSelect
            label={say.language}
            value={choice.language}
            onChange={(event) => change({ language: event.currentTarget.value === "de" ? "de" : "en" })}
            data={Object.entries(say.languages).map(([value, label]) => ({ value, label }))}
          />
          <TextInput
            label={say.revision}
            value={choice.revision}
            placeholder="1"
            maxLength={20}
            w={110}
            onChange={(event) => change({ revision: event.currentTarget.value })}
          />
          <TextInput
            label={say.approver}
            value={choice.approver}
            placeholder={say.approverHelp}
            maxLength={80}
            w={300}
            onChange={(event) => change({ approver: event.currentTarget.value })}
          />
          {paper === "offer" ? (
            <TextInput
              label={say.validUntil}
              type="date"
              value={choice.validUntil}
              onChange={(event) => change({ validUntil: event.currentTarget.value })}
            />
          ) : null}
        </div>
      )}
      <div className="row middle">
        <Anchor href={url("pdf", typed)} download>
          {say.pdf}
        </Anchor>
        <Anchor href={url("html", typed)} target="_blank" rel="noopener">
          {say.html}
        </Anchor>
      </div>
      <iframe className="paperframe" title={say.preview(name)} src={url("html", settled)} sandbox="" />
    </section>
  );
}
