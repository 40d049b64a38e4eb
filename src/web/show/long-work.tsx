import { Button, Progress } from "@mantine/core";
import { words } from "../words/index.ts";

interface Props {
  readonly label: string;
  /** 0 to 1, or null when the work cannot say */
  readonly share: number | null;
  readonly onCancel: () => void;
}

/** Long work in sight: what it is, how far it is, and the way out. */
export function LongWorkBar({ label, share, onCancel }: Props) {
  const percent = share === null ? 100 : Math.round(share * 100);
  return (
    <div className="sheet stack tight" role="status">
      <div className="row apart middle">
        <span>
          {label}
          {share === null ? " …" : ` ${percent} %`}
        </span>
        <Button variant="default" size="compact-sm" onClick={onCancel}>
          {words.frame.cancel}
        </Button>
      </div>
      <Progress.Root size="sm">
        <Progress.Section value={percent} striped={share === null} animated={share === null} aria-label={label} />
      </Progress.Root>
    </div>
  );
}
