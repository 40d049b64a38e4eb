import type { AnswerDetailsWire, HistoryWire, ShopVersionWire } from "#contract";
import { call } from "./client.ts";

/** What was kept along with an answer; `shopVersion` 0 says that every figure of the shop was an invented example. */
export type KeptDetails = AnswerDetailsWire;

/** Shop figures with the version that a change has to name; 0 while nobody entered any. */
export type ShopVersion = ShopVersionWire;

export interface PaperAsk {
  readonly answer: string;
  readonly language: string;
  readonly revision: string;
  readonly approver: string;
  readonly validUntil: string;
}

const at = (text: string): string => encodeURIComponent(text);

export const getDetails = (answerId: string) => call<KeptDetails>("GET", `/answers/${at(answerId)}/details`);

export const getShop = (enquiryId: string) => call<ShopVersion>("GET", `/enquiries/${at(enquiryId)}/shop`);
export const putShop = (enquiryId: string, version: number, shop: unknown) =>
  call<ShopVersion>("PUT", `/enquiries/${at(enquiryId)}/shop`, { version, shop });
export const shopHistory = (enquiryId: string) => call<HistoryWire>("GET", `/enquiries/${at(enquiryId)}/shop/history`);
export const shopAt = (enquiryId: string, version: number) =>
  call<ShopVersion>("GET", `/enquiries/${at(enquiryId)}/shop/history/${version}`);

export const reportUrl = (answerId: string, format: "pdf" | "html"): string =>
  `/api/answers/${at(answerId)}/report.${format}`;

/** Address of a paper of one part; what is left empty stays open on the paper. */
export function paperUrl(
  enquiryId: string,
  partId: string,
  kind: string,
  format: "pdf" | "html",
  ask: PaperAsk,
): string {
  const query = new URLSearchParams({ format });
  for (const [key, value] of Object.entries(ask)) if (value !== "") query.set(key, value);
  return `/api/enquiries/${at(enquiryId)}/papers/${at(partId)}/${kind}?${query}`;
}

export const runSheetUrl = (trialId: string, format: "pdf" | "html", language: string): string =>
  `/api/trials/${at(trialId)}/run-sheet.${format}?language=${language}`;
