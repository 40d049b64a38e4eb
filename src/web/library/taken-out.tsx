import { Button } from "@mantine/core";
import { useState } from "react";
import type { KeptFile, KeptFiles, ShelfKey } from "../api/library.ts";
import { words } from "../words/index.ts";
import { isEmpty } from "./origins.ts";
import { usePutFile } from "./put-version.ts";

interface Props {
  readonly shelf: ShelfKey;
  readonly kept: KeptFiles | undefined;
  readonly onBack: (name: string) => void;
}

const say = words.library.away;

/** Files of this shelf that hold nothing any more: `metals.works-steel`. */
const emptyFiles = (kept: KeptFiles | undefined, shelf: ShelfKey): readonly KeptFile[] =>
  (kept?.files ?? []).filter((k) => k.id.startsWith(`${shelf}.`) && isEmpty(k.file));

/** Own entries that were taken out, with the way back. */
export function TakenOut({ shelf, kept, onBack }: Props) {
  const { putBack } = usePutFile();
  const [line, setLine] = useState<string | null>(null);
  const empty = emptyFiles(kept, shelf);
  if (empty.length === 0) return null;
  return (
    <section className="sheet stack tight">
      <h2>{say.title}</h2>
      <p className="quiet small">{say.lead}</p>
      {line === null ? null : (
        <p className="note bad" role="alert">
          {line}
        </p>
      )}
      <div className="row">
        {empty.map((k) => {
          const name = k.id.slice(shelf.length + 1);
          return (
            <Button
              key={k.id}
              variant="default"
              onClick={() =>
                void putBack(k.id, k.version, k.version - 1).then(
                  () => onBack(name),
                  (error: Error) => setLine(error.message),
                )
              }
            >
              {say.back(name)}
            </Button>
          );
        })}
      </div>
    </section>
  );
}
