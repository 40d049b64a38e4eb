import { Select } from "@mantine/core";
import type { FaceDoc } from "../../enquiry/doc.ts";
import { MaybeNumber, WordButton } from "../../show/maybe-number.tsx";
import { words } from "../../words/index.ts";

interface Props {
  readonly faces: readonly FaceDoc[];
  readonly onChange: (faces: readonly FaceDoc[]) => void;
}

const round = new Set(["convex", "concave", "hole"]);

export function FacesForm({ faces, onChange }: Props) {
  const set = (index: number, change: Partial<FaceDoc>) =>
    onChange(faces.map((face, i) => (i === index ? { ...face, ...change } : face)));
  return (
    <div className="stack tight">
      {faces.map((face, index) => {
        const kind = face.kind ?? "flat";
        return (
          <div className="row" key={index}>
            <Select
              aria-label={words.part.faces}
              data={Object.entries(words.faces).map(([value, label]) => ({ value, label }))}
              value={kind}
              allowDeselect={false}
              w={150}
              onChange={(value) =>
                value &&
                set(
                  index,
                  round.has(value)
                    ? { kind: value as NonNullable<FaceDoc["kind"]>, radius_mm: face.radius_mm ?? 50 }
                    : { kind: value as NonNullable<FaceDoc["kind"]>, radius_mm: null },
                )
              }
            />
            {round.has(kind) ? (
              <MaybeNumber
                label={words.part.radius}
                hideLabel
                unit="mm"
                value={face.radius_mm}
                emptyWords={words.part.radius}
                required
                width={120}
                onChange={(value) => value !== null && set(index, { radius_mm: value })}
              />
            ) : null}
            {faces.length > 1 ? (
              <WordButton label={words.part.removeFace} onClick={() => onChange(faces.filter((_, i) => i !== index))}>
                ×
              </WordButton>
            ) : null}
          </div>
        );
      })}
      <div>
        <WordButton onClick={() => onChange([...faces, { kind: "flat" }])} disabled={faces.length >= 50}>
          {words.part.addFace}
        </WordButton>
      </div>
    </div>
  );
}
