import { useCallback, useEffect, useRef, useState } from "react";

/** Rows at a time: more than a tall screen holds, few enough to be drawn within a frame or two. */
const STEP = 30;

/** How many rows of a long list to draw: some at first, more as its end comes into sight or when asked for. */
export function useGrowing(
  total: number,
  key: string,
): {
  readonly shown: number;
  readonly more: () => void;
  /** of an element behind the last row */
  readonly end: (element: Element | null) => void;
} {
  const [state, setState] = useState({ key, shown: STEP });
  if (state.key !== key) setState({ key, shown: STEP });
  const more = useCallback(() => setState((was) => ({ ...was, shown: was.shown + STEP })), []);
  const observer = useRef<IntersectionObserver | null>(null);
  useEffect(() => () => observer.current?.disconnect(), []);
  const end = useCallback(
    (element: Element | null) => {
      observer.current?.disconnect();
      if (element === null) return;
      observer.current = new IntersectionObserver((seen) => seen.some((s) => s.isIntersecting) && more(), {
        rootMargin: "600px",
      });
      observer.current.observe(element);
    },
    [more],
  );
  return { shown: Math.min(total, state.key === key ? state.shown : STEP), more, end };
}
