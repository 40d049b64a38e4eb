import { useEffect, useRef } from "react";

interface Props {
  /** a whole <svg> element as text, made by our own drawing room */
  readonly svg: string;
  readonly label: string;
  readonly size?: "full" | "natural" | "fit";
  /** shows only what stands in the drawing's groups: for a place where its words are said beside it */
  readonly trim?: boolean;
}

/** Puts a drawing on the page as real SVG nodes: parsed as XML, so nothing in it can run. */
export function SvgPicture({ svg, label, size = "fit", trim = false }: Props) {
  const holder = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const box = holder.current;
    if (!box) return;
    const parsed = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (parsed.nodeName.toLowerCase() !== "svg") return;
    for (const script of parsed.querySelectorAll("script, foreignObject")) script.remove();
    parsed.setAttribute("aria-hidden", "true");
    parsed.removeAttribute("role");
    if (parsed.getAttribute("width") && !parsed.getAttribute("viewBox"))
      parsed.setAttribute(
        "viewBox",
        `0 0 ${Number.parseFloat(parsed.getAttribute("width") ?? "0")} ${Number.parseFloat(parsed.getAttribute("height") ?? "0")}`,
      );
    const drawn = document.importNode(parsed, true) as unknown as SVGSVGElement;
    box.replaceChildren(drawn);
    if (trim) trimToGroups(drawn);
  }, [svg, trim]);
  return <div className={`picture ${size}`} ref={holder} role="img" aria-label={label} />;
}

function trimToGroups(drawn: SVGSVGElement): void {
  const boxes = [...drawn.querySelectorAll<SVGGElement>(":scope > g")]
    .map((group) => group.getBBox())
    .filter((box) => box.width > 0);
  if (boxes.length === 0) return;
  const left = Math.min(...boxes.map((b) => b.x)) - 2;
  const top = Math.min(...boxes.map((b) => b.y)) - 2;
  const right = Math.max(...boxes.map((b) => b.x + b.width)) + 2;
  const bottom = Math.max(...boxes.map((b) => b.y + b.height)) + 2;
  drawn.setAttribute("viewBox", `${left} ${top} ${right - left} ${bottom - top}`);
  drawn.removeAttribute("width");
  drawn.removeAttribute("height");
}
