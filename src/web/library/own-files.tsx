import { Button, FileButton } from "@mantine/core";
import { useState } from "react";
import type { LibraryFile } from "#library";
import type { KeptFile, KeptFiles } from "../api/library.ts";
import { saveText } from "../show/save-file.ts";
import { words } from "../words/index.ts";
import { isEmpty } from "./origins.ts";
import { usePutFile } from "./put-version.ts";

interface Props {
  readonly kept: KeptFiles | undefined;
  readonly onRead: (saved: KeptFile) => void;
}

const say = words.library.files;

/** Name under which a file is kept: that of the file without its ending. */
const idOf = (name: string): string => name.replace(/\.json$/i, "");

/** Own entries as files: saved, and read in. The server judges a file read in as it judges a form. */
export function OwnFiles({ kept, onRead }: Props) {
  const { put } = usePutFile();
  const [line, setLine] = useState<string | null>(null);
  if (kept === undefined) return null;
  const all = [...kept.files.filter((k) => !isEmpty(k.file)), ...kept.refused];
  const read = async (file: File | null): Promise<void> => {
    if (file === null) return;
    setLine(null);
    const id = idOf(file.name);
    if (!/^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$/.test(id)) return setLine(say.badName(file.name));
    try {
      const content = JSON.parse(await file.text()) as LibraryFile;
      const before = [...kept.files, ...kept.refused].find((k) => k.id === id);
      onRead(await put(id, before?.version ?? 0, content));
    } catch (error) {
      setLine(error instanceof SyntaxError ? say.notJson(file.name) : (error as Error).message);
    }
  };
  return (
    <section className="sheet stack tight">
      <h2>{say.title}</h2>
      <p className="quiet small">{say.lead}</p>
      {line === null ? null : (
        <p className="note bad" role="alert">
          {line}
        </p>
      )}
      <div className="row lib-files">
        {all.map((k) => (
          <Button
            key={k.id}
            variant="default"
            onClick={() => saveText(`${k.id}.json`, `${JSON.stringify(k.file, null, 2)}\n`, "application/json")}
          >
            {say.save(k.id)}
          </Button>
        ))}
        <FileButton accept=".json,application/json" onChange={(file) => void read(file)}>
          {(props) => (
            <Button {...props} variant="subtle">
              {say.read}
            </Button>
          )}
        </FileButton>
      </div>
    </section>
  );
}
