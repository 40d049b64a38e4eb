import type { KeyboardEvent } from "react";

const rowOf = "[data-row]";

/** Moves the focus by rows: up, down, to the first and to the last. Enter is the link's own. */
export function rowKeys(event: KeyboardEvent<HTMLElement>): void {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const at = event.target instanceof HTMLElement ? event.target : null;
  // Keys inside a field or a list of choices are its own.
  if (at?.closest("select, textarea, [role=combobox], [role=listbox]")) return;
  const typing = at?.closest("input") !== null;
  const rows = [...event.currentTarget.querySelectorAll<HTMLElement>(rowOf)];
  const now = rows.findIndex((row) => row === at || row.closest("[data-row-of]")?.contains(at));
  const next = wanted(event.key, now, rows.length, typing);
  const row = next === null ? undefined : rows[next];
  if (row === undefined) return;
  event.preventDefault();
  row.focus();
  row.scrollIntoView({ block: "nearest" });
}

function wanted(key: string, now: number, count: number, typing: boolean): number | null {
  if (key === "ArrowDown") return Math.min(now + 1, count - 1);
  if (typing) return null;
  if (key === "ArrowUp") return now < 0 ? null : Math.max(now - 1, 0);
  if (now < 0) return null;
  if (key === "Home") return 0;
  return key === "End" ? count - 1 : null;
}
