import { Button, NativeSelect, Select } from "@mantine/core";
import { useState } from "react";
import { checkSetting } from "#beam";
import type { Library } from "#library";
import type { ArchiveHit } from "../api/archive.ts";
import { linkTo } from "../app/route.ts";
import { useEnquiries } from "../enquiries/use-enquiries.ts";
import { partId } from "../enquiry/doc.ts";
import { useLibrary } from "../library/use-library.ts";
import { keepWorkingSetting, readWorkingSetting, type WorkingSetting } from "../live/kept-choice.ts";
import { words } from "../words/index.ts";
import type { Goal } from "./goal.ts";

const say = words.archive.take;

interface Props {
  readonly hit: ArchiveHit;
  readonly goal: Goal | null;
}

interface Taken {
  readonly enquiryId: string;
  readonly partId: string;
  readonly words: string;
  readonly before: WorkingSetting | null;
}

/** The setting of a kept trial as the working setting of a part, with the way back. */
export function TakeSetting({ hit, goal }: Props) {
  const library = useLibrary();
  const list = useEnquiries();
  const [enquiryId, setEnquiryId] = useState<string | null>(goal?.enquiryId ?? null);
  const [chosenPart, setChosenPart] = useState<string | null>(goal?.partId ?? null);
  const [taken, setTaken] = useState<Taken | null>(null);
  const [line, setLine] = useState<string | null>(null);
  const enquiries = list.data?.enquiries ?? [];
  const enquiry = enquiries.find((item) => item.id === enquiryId) ?? null;
  const parts = (enquiry?.enquiry.parts ?? []).map((p, i) => ({ value: partId(p, i), label: p.name || partId(p, i) }));
  const part = parts.find((p) => p.value === chosenPart) ?? parts[0] ?? null;
  const why = whyNot(hit, library);
  const setting = hit.recommended?.setting ?? null;

  const take = () => {
    if (enquiry === null || part === null || setting === null) return;
    const before = readWorkingSetting(enquiry.id, part.value);
    keepWorkingSetting(enquiry.id, part.value, { setupId: hit.laser, setting });
    const title = enquiry.enquiry.title || words.list.untitled;
    setTaken({ enquiryId: enquiry.id, partId: part.value, words: say.taken(part.label, title), before });
    setLine(null);
  };
  const undo = (done: Taken) => {
    keepWorkingSetting(done.enquiryId, done.partId, done.before);
    setTaken(null);
    setLine(say.undone);
  };

  return (
    <section className="stack tight">
      <h3>{say.title}</h3>
      {why ? (
        <p className="small quiet">{why}</p>
      ) : (
        <>
          <p className="small quiet">
            {say.lead} {words.archive.beginning}
          </p>
          <div className="row">
            <Select
              label={say.enquiry}
              placeholder={say.chooseEnquiry}
              searchable
              limit={30}
              value={enquiryId}
              onChange={(value) => {
                setEnquiryId(value);
                setChosenPart(null);
              }}
              data={enquiries.map((item) => ({
                value: item.id,
                label: `${item.enquiry.title || words.list.untitled} (${item.id})`,
              }))}
              nothingFoundMessage={enquiries.length === 0 ? say.noEnquiries : words.list.nothingFound}
              className="grow"
              miw={200}
            />
            <NativeSelect
              label={say.part}
              value={part?.value ?? ""}
              onChange={(event) => setChosenPart(event.currentTarget.value)}
              data={parts}
              disabled={parts.length === 0}
            />
          </div>
          <div>
            <Button onClick={take} disabled={part === null}>
              {say.take}
            </Button>
          </div>
        </>
      )}
      <div role="status">
        {taken ? (
          <p className="note good small">
            {taken.words}{" "}
            <a href={linkTo({ enquiryId: taken.enquiryId, step: "setting", query: { part: taken.partId } })}>
              {say.open}
            </a>
          </p>
        ) : (
          line
        )}
      </div>
      {taken ? (
        <div>
          <Button variant="subtle" size="compact-sm" onClick={() => undo(taken)}>
            {say.undo}
          </Button>
        </div>
      ) : null}
    </section>
  );
}

/** Why a setting cannot be taken, or null where it can: the steps would set it aside without a word. */
function whyNot(hit: ArchiveHit, library: Library): string | null {
  if (hit.recommended === null) return say.none;
  const setup = library.setups.find((s) => s.id === hit.laser);
  if (setup === undefined) return say.noSetup;
  try {
    checkSetting(setup, hit.recommended.setting);
    return null;
  } catch (error) {
    return say.cannotRun(error instanceof Error ? error.message : String(error));
  }
}
