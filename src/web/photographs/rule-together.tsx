import { Button } from "@mantine/core";
import type { GradingWire } from "#contract";
import { words } from "../words/index.ts";
import { toLook } from "./reading-text.ts";
import { isReference, plainReadings, type WirePatch } from "./rulings.ts";

const say = words.photographs;

/** What is done with many readings at once, and the way back. */
export function RuleTogether({
  grading,
  onAcceptAll,
  onUndo,
}: {
  readonly grading: GradingWire;
  readonly onAcceptAll: () => void;
  readonly onUndo: (() => void) | null;
}) {
  const plain = plainReadings(grading).length;
  const left = grading.patches.filter(toLook).length;
  const open = grading.patches.some((p) => !isReference(p) && p.ruling === null);
  return (
    <div className="stack tight">
      <p>
        {verdictCounts(grading.patches)}
        {"; "}
        {open ? say.all.toLook(left) : say.all.allSeen}
      </p>
      <div className="row middle">
        {plain > 0 ? (
          <Button onClick={onAcceptAll}>{plain === 1 ? say.all.acceptOne : say.all.accept(plain)}</Button>
        ) : null}
        <Button variant="default" onClick={onUndo ?? undefined} disabled={onUndo === null}>
          {say.all.undo}
        </Button>
      </div>
      <p className="small quiet">{plain === 0 && open ? say.all.none : say.all.help}</p>
    </div>
  );
}

function verdictCounts(patches: readonly WirePatch[]): string {
  const own = patches.filter((p) => !isReference(p));
  return (Object.keys(say.verdicts) as WirePatch["verdict"][])
    .map((v) => `${own.filter((p) => p.verdict === v).length} ${say.verdicts[v]}`)
    .join(", ");
}
