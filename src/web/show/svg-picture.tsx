import { useEffect, useRef } from "react";

interface Props {
  /** a whole <svg> element as text, made by our own drawing room */
  readonly svg: string;
  readonly label: string;
  readonly size?: "full" | "natural" | "fit";
}

/** Puts a drawing on the page as real SVG nodes: parsed as XML, so nothing in it can run. */
export function SvgPicture({ svg, label, size = "fit" }: Props) {
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
    box.replaceChildren(document.importNode(parsed, true));
  }, [svg]);
  return <div className={`picture ${size}`} ref={holder} role="img" aria-label={label} />;
}
