import { Button } from "@mantine/core";
import { useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import type { ArchiveHit } from "../api/archive.ts";
import { getEnquiry } from "../api/enquiries.ts";
import { goTo, linkTo } from "../app/route.ts";
import { keepNew } from "../enquiries/fresh-id.ts";
import { words } from "../words/index.ts";
import { copiedPart } from "./copied-part.ts";

const say = words.archive.copy;

/** A new enquiry with the part of a kept trial. */
export function CopyPart({ hit }: { readonly hit: ArchiveHit }) {
  const queries = useQueryClient();
  const [line, setLine] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const make = async () => {
    setBusy(true);
    setLine(null);
    try {
      const { enquiry } = await getEnquiry(hit.enquiry);
      const about = { enquiry: hit.enquiry, part: hit.part, trial: hit.trial };
      const id = await keepNew((fresh) => {
        const doc = copiedPart(enquiry, { ...about, id: fresh });
        if (doc === null) throw new Error(say.missing);
        return doc;
      });
      void queries.invalidateQueries({ queryKey: ["enquiries"] });
      goTo(linkTo({ enquiryId: id, step: "part", query: { part: hit.part } }));
    } catch (error) {
      setLine(error instanceof Error ? error.message : String(error));
      setBusy(false);
    }
  };
  return (
    <section className="stack tight">
      <h3>{say.title}</h3>
      <p className="small quiet">{say.lead}</p>
      {line ? (
        <p className="note bad small" role="alert">
          {line}
        </p>
      ) : null}
      <div>
        <Button onClick={() => void make()} disabled={busy}>
          {busy ? say.making : say.make}
        </Button>
      </div>
    </section>
  );
}
