import { Button, Drawer } from "@mantine/core";
import { useQueries, useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { getFileHistory, getFileVersion, type KeptFile, type ShelfKey } from "../api/library.ts";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";
import { changesBetween } from "./draft-problems.ts";
import { draftOf } from "./entry-draft.ts";
import { usePutFile } from "./put-version.ts";

interface Props {
  readonly shelf: ShelfKey;
  readonly id: string;
  readonly name: string;
  readonly file: KeptFile;
  readonly opened: boolean;
  readonly onClose: () => void;
  readonly onBack: (saved: KeptFile) => void;
}

const say = words.library.versions;
/** Newest versions whose changes are worked out; older ones are listed by their time. */
const LOOKED_AT = 12;

/** Every version of an own file: when, what changed in this entry, and the way back to it. */
export function VersionsDrawer({ shelf, id, name, file, opened, onClose, onBack }: Props) {
  const [line, setLine] = useState<string | null>(null);
  const { putBack } = usePutFile();
  const history = useQuery({
    queryKey: ["library-history", file.id, file.version],
    queryFn: () => getFileHistory(file.id),
    enabled: opened,
  });
  const versions = history.data?.versions ?? [];
  const read = useQueries({
    queries: versions.slice(0, LOOKED_AT + 1).map((v) => ({
      queryKey: ["library-version", file.id, v.version],
      queryFn: () => getFileVersion(file.id, v.version),
      staleTime: Number.POSITIVE_INFINITY,
    })),
  });
  const take = (version: number) =>
    void putBack(file.id, file.version, version).then(onBack, (error: Error) => setLine(error.message));
  return (
    <Drawer
      opened={opened}
      onClose={onClose}
      position="right"
      title={say.title(name)}
      closeButtonProps={{ "aria-label": words.frame.close }}
      // The page has its own banner.
      attributes={{ header: { role: "presentation" } }}
    >
      <div className="stack">
        <p className="quiet small">{say.lead}</p>
        {line === null ? null : (
          <p className="note bad" role="alert">
            {line}
          </p>
        )}
        {history.error ? <p className="note bad">{history.error.message}</p> : null}
        <ul className="lib-versions">
          {versions.map(({ version, savedAt }, i) => (
            <li key={version} className="stack tight">
              <span className="row apart middle">
                <span>
                  {say.version(version)} <span className="quiet small">{whenText(savedAt)}</span>
                </span>
                {version === file.version ? (
                  <span className="tag good">{say.now}</span>
                ) : (
                  <Button variant="default" size="compact-sm" onClick={() => take(version)}>
                    {say.back}
                  </Button>
                )}
              </span>
              <span className="small quiet">
                {changeWords(shelf, id, read[i]?.data, read[i + 1]?.data, i === versions.length - 1)}
              </span>
            </li>
          ))}
        </ul>
      </div>
    </Drawer>
  );
}

function changeWords(
  shelf: ShelfKey,
  id: string,
  now: KeptFile | undefined,
  before: KeptFile | undefined,
  isFirst: boolean,
): string {
  if (now === undefined) return "";
  const draft = draftOf(shelf, now.id, now.file, id);
  if (draft === null) return say.without;
  if (isFirst) return say.first;
  if (before === undefined) return "";
  const was = draftOf(shelf, before.id, before.file, id);
  if (was === null) return say.first;
  const changes = changesBetween(draft, was.entry);
  const head = JSON.stringify(draft.head) === JSON.stringify(was.head) ? [] : [words.library.form.head];
  const all = [...changes, ...head];
  return all.length === 0 ? say.same : say.changed(all.join(", ").toLowerCase());
}
