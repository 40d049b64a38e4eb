import { type LayerDoc, plainNumber } from "../enquiry/doc.ts";

/** Grey values stand in for colour classes here: the list does not carry the library along. */
const shade: Record<string, string> = {
  white: "#f2efe6",
  mid: "#7d93a0",
  dark: "#3c434a",
  clear: "#d9cfae",
  natural: "#8c6b52",
  unknown: "#b9b09d",
};

/** The stack section in the size of a stamp. */
export function SmallStack({ layers }: { readonly layers: readonly LayerDoc[] }) {
  const thick = layers.map((layer) => plainNumber(layer.thickness_um) ?? 60);
  const total = thick.reduce((a, b) => a + b, 0) || 1;
  let y = 6;
  return (
    <svg viewBox="0 0 104 62" width="104" height="62" aria-hidden="true" style={{ maxWidth: "100%", height: "auto" }}>
      {layers.map((layer, index) => {
        const height = Math.max(3, ((thick[index] ?? 0) / total) * 32);
        const top = y;
        y += height;
        return (
          <rect
            key={index}
            x="4"
            y={top}
            width="96"
            height={height}
            fill={shade[layer.colour ?? "unknown"] ?? shade.unknown}
            stroke="var(--ink)"
            strokeWidth="0.6"
          />
        );
      })}
      <path
        d={`M4 ${y} H100 V${y + 15} l-14 3 l-16 -5 l-18 6 L4 ${y + 15} Z`}
        fill="var(--metal)"
        stroke="var(--ink)"
        strokeWidth="0.6"
      />
    </svg>
  );
}
