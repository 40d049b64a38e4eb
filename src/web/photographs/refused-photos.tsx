import { Button } from "@mantine/core";
import { words } from "../words/index.ts";

const say = words.photographs;

/** Files that were not kept or not read, each with its sentence. */
export function RefusedPhotos({
  refused,
  onDismiss,
}: {
  readonly refused: readonly { readonly name: string; readonly line: string }[];
  readonly onDismiss: (name: string) => void;
}) {
  if (refused.length === 0) return null;
  return (
    <div className="note warn" role="status">
      <p>
        <strong>{say.refusedTitle}</strong>
      </p>
      <ul>
        {refused.map(({ name, line }) => (
          <li key={name}>
            {name}: {line}{" "}
            <Button variant="subtle" size="compact-xs" aria-label={say.dismiss(name)} onClick={() => onDismiss(name)}>
              {say.dismissShort}
            </Button>
          </li>
        ))}
      </ul>
    </div>
  );
}
