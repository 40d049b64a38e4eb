import type { GradingWire } from "#contract";
import { formatNumber } from "#units";
import { photoUrl } from "../api/photographs.ts";
import { words } from "../words/index.ts";

const say = words.photographs;

/** Each photograph, and why nothing was read from it where nothing was. */
export function PhotoLines({ grading }: { readonly grading: GradingWire }) {
  const { photos } = grading;
  return (
    <details open={photos.some((p) => !p.read)}>
      <summary className="small">{say.read(photos.filter((p) => p.read).length, photos.length)}</summary>
      <ul className="plain small">
        {photos.map((p) => (
          <li key={p.name}>
            <a href={photoUrl(p.sha256)} target="_blank" rel="noreferrer">
              {p.name}
            </a>
            {": "}
            {p.read
              ? say.photoRead(p.patches, `${formatNumber(p.scale_px_per_mm ?? 0, 2)} px/mm`)
              : `${say.photoNotRead}. ${p.gates.map((g) => g.sentence).join(" ")}`}
          </li>
        ))}
      </ul>
    </details>
  );
}
