import type { PartEnquiry } from "#terms";
import { photoPathOf } from "#workflows";
import { words } from "../words/index.ts";

/** Says before anything is printed or photographed that photographs will not, or may not, settle this part. */
export function PathNote({ part }: { readonly part: PartEnquiry | null }) {
  if (part === null) return null;
  const { answer, reasons, ways } = photoPathOf(part);
  if (answer === "yes") return null;
  return (
    <div className="note warn">
      <p>
        <strong>{words.photographs.path[answer]}</strong> {reasons.join(" ")}
      </p>
      <p>{words.photographs.path.ways}</p>
      <ul>
        {ways.map((way) => (
          <li key={way.way}>{way.words}</li>
        ))}
      </ul>
    </div>
  );
}
