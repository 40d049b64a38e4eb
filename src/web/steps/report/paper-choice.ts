import { useCallback, useState } from "react";

export const paperIds = ["report", "procedure", "commissioning", "offer"] as const;
export type PaperId = (typeof paperIds)[number];

/** What a person last asked of the papers of an enquiry: kept in this browser, so that a reload loses nothing. */
export interface PaperChoice {
  readonly paper: PaperId;
  readonly language: "en" | "de";
  readonly revision: string;
  readonly approver: string;
  /** ISO 8601 day, "" leaves it open */
  readonly validUntil: string;
}

const first: PaperChoice = { paper: "report", language: "en", revision: "", approver: "", validUntil: "" };
const keyOf = (enquiryId: string): string => `scourlight.papers.${enquiryId}`;

function read(enquiryId: string): PaperChoice {
  try {
    const kept = JSON.parse(localStorage.getItem(keyOf(enquiryId)) ?? "null") as Partial<PaperChoice> | null;
    const text = (name: "revision" | "approver" | "validUntil"): string => {
      const value = kept?.[name];
      return typeof value === "string" ? value : "";
    };
    return {
      paper: paperIds.find((id) => id === kept?.paper) ?? first.paper,
      language: kept?.language === "de" ? "de" : "en",
      revision: text("revision"),
      approver: text("approver"),
      validUntil: text("validUntil"),
    };
  } catch {
    return first;
  }
}

function keep(enquiryId: string, choice: PaperChoice): void {
  try {
    localStorage.setItem(keyOf(enquiryId), JSON.stringify(choice));
  } catch {
    return;
  }
}

export function usePaperChoice(enquiryId: string): [PaperChoice, (change: Partial<PaperChoice>) => void] {
  const [choice, setChoice] = useState<PaperChoice>(() => read(enquiryId));
  const change = useCallback(
    (part: Partial<PaperChoice>) =>
      setChoice((was) => {
        const next = { ...was, ...part };
        keep(enquiryId, next);
        return next;
      }),
    [enquiryId],
  );
  return [choice, change];
}
