export { keptWindows } from "./found.ts";
export { burnedOn, hitCautions, hitToPage, hitToWire, learntOf } from "./hit.ts";
export { type Archive, type Hit, openArchive, type Page, type Shelf } from "./open-archive.ts";
export { type Question, questionAsTyped, questionInWords, questionOfLaser, questionOfPart } from "./question.ts";
