import { useEffect, useRef } from "react";
import type { LivePicture } from "../../live/protocol.ts";
import { quantityText } from "../../show/quantity-text.ts";
import { words } from "../../words/index.ts";

/** A piece of the patch as predicted, from above; what each colour means stands beside it. */
export function PatchCanvas({ picture }: { readonly picture: LivePicture | null }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context || !picture) return;
    const { width, height } = picture;
    if (context.canvas.width !== width || context.canvas.height !== height) {
      context.canvas.width = width;
      context.canvas.height = height;
    }
    context.putImageData(new ImageData(new Uint8ClampedArray(picture.pixels), width, height), 0, 0);
  }, [picture]);
  const size = picture ? quantityText(picture.side, "mm", 2) : "";
  return (
    <figure className="patch-look">
      <canvas
        ref={canvas}
        role="img"
        aria-label={
          picture ? words.live.patchOf(size, picture.legend.map((l) => l.words).join(", ")) : words.live.patchTitle
        }
      />
      <figcaption className="small">
        <p>
          <strong>{words.live.patchTitle}</strong>{" "}
          <span className="quiet">{picture ? words.live.square(size) : ""}</span>
        </p>
        <ul className="legend">
          {(picture?.legend ?? []).map((entry) => (
            <li key={entry.words}>
              <svg width="14" height="14" aria-hidden="true">
                <rect width="14" height="14" fill={entry.colour} stroke="var(--rule-strong)" />
              </svg>
              {entry.words}
            </li>
          ))}
        </ul>
        {picture ? <p className="quiet">{words.live.tint(picture.tint)}</p> : null}
        <p className="quiet">{words.live.patchNote}</p>
      </figcaption>
    </figure>
  );
}
