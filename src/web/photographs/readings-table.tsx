import { Button } from "@mantine/core";
import type { GradingWire } from "#contract";
import { words } from "../words/index.ts";
import { isHarmed, metalText, residueText, seenText, toLook } from "./reading-text.ts";
import { isReference, type WirePatch } from "./rulings.ts";

interface Props {
  readonly grading: GradingWire;
  readonly opened: number | null;
  readonly onOpen: (patch: number) => void;
}

const say = words.photographs;
const tones: Readonly<Record<WirePatch["verdict"], string>> = {
  clean: "good",
  residue: "accent",
  "near the limit": "warn",
  "not settled": "warn",
};

/** Readings patch by patch, for whoever reads rather than looks. */
export function ReadingsTable({ grading, opened, onOpen }: Props) {
  const rows = grading.patches.filter((p) => !isReference(p));
  return (
    <div className="table">
      <table className="grid readings" aria-label={say.table.title}>
        <thead>
          <tr>
            <th scope="col">{words.trial.patch}</th>
            <th scope="col">{say.table.verdict}</th>
            <th scope="col">{say.table.residue}</th>
            <th scope="col">{say.table.metal}</th>
            <th scope="col">{say.table.seen}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((p) => (
            <tr key={p.patch} className={p.patch === opened ? "chosen" : undefined}>
              <td>
                <Button
                  variant="default"
                  size="compact-sm"
                  aria-label={say.table.open(p.patch)}
                  onClick={() => onOpen(p.patch)}
                >
                  {p.patch}
                </Button>
              </td>
              <td>
                <span className={`tag ${tones[p.verdict]}`}>{say.verdicts[p.verdict]}</span>
                {lookText(p) === "" ? null : <span className="look">{lookText(p)}</span>}
              </td>
              <td>
                {p.ruling?.residue_percent == null && p.reading.residue === null ? words.frame.unknown : residueText(p)}
              </td>
              <td>
                {metalText(p)}
                {isHarmed(p, grading) ? <span className="tag bad">{say.table.harmed}</span> : null}
              </td>
              <td>{seenText(p) || <span className="quiet">{toLook(p) ? say.table.nobody : ""}</span>}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const lookText = ({ reading, read }: WirePatch): string =>
  [
    ...new Set([...reading.refusals, ...reading.flags].map((g) => g.gate)),
    ...(read !== null && read.metalCondition === null ? [say.table.metalUnclear] : []),
  ].join(", ");
