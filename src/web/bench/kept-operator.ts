const KEY = "scourlight.operator";

/** Name of whoever stands at the machine, as this browser keeps it; "" where it keeps none. */
export function readOperator(): string {
  try {
    return localStorage.getItem(KEY) ?? "";
  } catch {
    return "";
  }
}

/** Storage may be full or forbidden; then the name lasts as long as the page. */
export function keepOperator(name: string): void {
  try {
    localStorage.setItem(KEY, name);
  } catch {
    return;
  }
}
