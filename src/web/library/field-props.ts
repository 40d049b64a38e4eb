import type { Problems } from "./draft-problems.ts";
import type { EntryDraft } from "./entry-draft.ts";
import type { Field } from "./fields.ts";

/** What every field of the form is handed. */
export interface FieldProps<F extends Field = Field> {
  readonly field: F;
  readonly draft: EntryDraft;
  /** `cause` names the control, so that one run of it is one step to undo */
  readonly change: (next: (draft: EntryDraft) => EntryDraft, cause: string) => void;
  readonly problems: Problems;
  /** sources that a figure may name besides the entry's own: id and citation */
  readonly sources: readonly (readonly [id: string, text: string])[];
  /** ids and names of the fume entries of the library */
  readonly fume: readonly (readonly [id: string, name: string])[];
}
