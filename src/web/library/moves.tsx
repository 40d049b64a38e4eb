import type { ShelfKey } from "../api/library.ts";
import { words } from "../words/index.ts";
import { useDependants, UsedBy } from "./used-by.tsx";

const say = words.library.form;

/** What an entry in place of ours changes: said before it is saved, and for as long as it stands. */
export function Moves({ shelf, id }: { readonly shelf: ShelfKey; readonly id: string }) {
  const { data } = useDependants(shelf, id);
  const none = data !== undefined && data.enquiries.length + data.trials.length === 0 && shelf !== "setups";
  return (
    <section className="note warn stack tight lib-moves">
      <h2>{say.movesTitle}</h2>
      {none ? (
        <p>{say.movesNone}</p>
      ) : (
        <>
          <p>{say.moves}</p>
          <UsedBy shelf={shelf} id={id} />
        </>
      )}
    </section>
  );
}
