import { useEffect, useRef } from "react";
import type { GradingWire } from "#contract";
import { gradedCouponSvg, pageTheme } from "#drawing";
import type { Trial } from "#terms";
import { markedPatches } from "#workflows";
import { words } from "../words/index.ts";
import { nextInDirection } from "./next-patch.ts";
import { markText } from "./reading-text.ts";

interface Props {
  readonly trial: Trial;
  readonly grading: GradingWire;
  /** address of the photograph laid flat; null while there is none */
  readonly photo: string | null;
  readonly opened: number | null;
  readonly onOpen: (patch: number) => void;
}

/** The coupon as photographed with every patch outlined; patches can be pressed, or reached by arrow keys. */
export function GradedPicture({ trial, grading, photo, opened, onOpen }: Props) {
  const holder = useRef<HTMLDivElement>(null);
  const coupon = trial.coupons.find((c) => c.coupon === grading.coupon);
  const marked = markedPatches(trial, grading);
  const label = coupon?.label ?? String(grading.coupon);
  const svg =
    coupon === undefined
      ? ""
      : gradedCouponSvg(marked, {
          width: coupon.width,
          height: coupon.height,
          label,
          trial: trial.id,
          photo,
          cautions: [],
          theme: pageTheme,
          id: `graded-${grading.id}`,
        });

  useEffect(() => {
    const box = holder.current;
    const drawn = svg === "" ? null : new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
    if (box === null || drawn === null || drawn.nodeName.toLowerCase() !== "svg") return;
    // The drawing says its words once more beside it; what can be pressed must not be hidden in a picture.
    for (const words of drawn.querySelectorAll("title, desc")) words.remove();
    drawn.setAttribute("role", "group");
    drawn.removeAttribute("aria-labelledby");
    drawn.setAttribute("aria-label", words.photographs.couponPicture(label));
    const marks = [...drawn.querySelectorAll<SVGGElement>(":scope > g[transform] > g")];
    const focused = box.contains(document.activeElement)
      ? Number((document.activeElement as SVGElement).getAttribute("data-patch"))
      : null;
    marks.forEach((mark, k) => {
      const { patch } = marked[k]!;
      const wire = grading.patches.find((p) => p.patch === patch)!;
      mark.setAttribute("data-patch", String(patch));
      mark.setAttribute("class", "patch-mark");
      mark.setAttribute("role", "button");
      mark.setAttribute("tabindex", patch === (opened ?? marked[0]!.patch) ? "0" : "-1");
      // The name begins with what is seen, so that a person who speaks to the page can say it, and goes on in words.
      const letters = [...mark.querySelectorAll("text")];
      for (const text of letters) text.after(" ");
      const seen = letters.map((text) => text.textContent).join(" ");
      mark.setAttribute("aria-label", `${seen}: ${markText(wire)}`);
      mark.setAttribute("aria-pressed", String(patch === opened));
    });
    box.replaceChildren(document.importNode(drawn, true));
    if (focused !== null) focusMark(box, focused);
  }, [svg, opened, grading]);

  const patchAt = (target: EventTarget): number | null => {
    const at = (target as Element).closest?.("[data-patch]")?.getAttribute("data-patch");
    return at ? Number(at) : null;
  };
  const onKey = (event: React.KeyboardEvent) => {
    const patch = patchAt(event.target);
    if (patch === null || holder.current === null) return;
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      onOpen(patch);
      return;
    }
    const next = nextInDirection(marked, patch, event.key);
    if (next === null) return;
    event.preventDefault();
    focusMark(holder.current, next);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the buttons are in the drawing that is put in here
    <div
      className="picture graded"
      ref={holder}
      onClick={(event) => {
        const patch = patchAt(event.target);
        if (patch !== null) onOpen(patch);
      }}
      onKeyDown={onKey}
    />
  );
}

function focusMark(box: HTMLElement, patch: number): void {
  for (const mark of box.querySelectorAll<SVGGElement>("[data-patch]")) {
    const here = mark.getAttribute("data-patch") === String(patch);
    mark.setAttribute("tabindex", here ? "0" : "-1");
    if (here) mark.focus();
  }
}
