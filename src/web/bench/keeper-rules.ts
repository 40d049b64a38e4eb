/** How a request is answered when pages are kept for a lost network; null: it goes its way untouched. */
export type KeepingRule = "page" | "asset" | "answer" | null;

/** Mark on an answer that was kept earlier because nobody answered now. */
export const KEPT_MARK = "x-kept-here";

const answers = /^\/api\/trials\/[^/]+(\/run-log)?$/;

/**
 * The page itself, its hashed files, and what the list of a trial is made from. Nothing that writes and no other answer is
 * ever kept. `url`: of the request; `origin`: of the pages.
 */
export function ruleOf(method: string, url: string, origin: string): KeepingRule {
  if (method !== "GET") return null;
  const asked = new URL(url);
  if (asked.origin !== origin || asked.search !== "") return null;
  if (asked.pathname === "/") return "page";
  if (asked.pathname.startsWith("/assets/")) return "asset";
  return answers.test(asked.pathname) ? "answer" : null;
}

/** Files that a page names in itself, as paths: scripts, styles, pictures. */
export function filesOfPage(html: string): string[] {
  const named = [...html.matchAll(/\b(?:src|href)="\.?(\/assets\/[^"]+)"/g)].map((match) => match[1] ?? "");
  return [...new Set(named)];
}

/** Scripts and styles: their names hold what is in them, so they tell one version from another. */
const codeOfPage = (html: string): string[] => filesOfPage(html).filter((file) => /\.(js|css)$/.test(file));

/**
 * A page may be kept for the files that run now only if it is of their version: another one would be put together of
 * two. `running`: files that the open page has loaded.
 */
export const sameVersion = (html: string, running: readonly string[]): boolean =>
  codeOfPage(html).every((file) => running.includes(file));

/** Generations of files that are kept: those of the page that was kept last, and of the one before. */
export interface Generations {
  readonly now: readonly string[];
  readonly before: readonly string[];
}

/** After a page was kept with its files. The same version anew changes nothing but what it has loaded since. */
export function nextGenerations(last: Generations, html: string, files: readonly string[]): Generations {
  const same = codeOfPage(html).every((file) => last.now.includes(file));
  return same ? { now: [...new Set([...last.now, ...files])], before: last.before } : { now: files, before: last.now };
}

/** What the page asks of the keeper, and what it hears. */
export interface KeepAsk {
  readonly kind: "keep";
  /** paths of files that the open page has loaded */
  readonly files: readonly string[];
  /** paths of the answers that the list is made from: those read before there was a keeper went past it */
  readonly answers: readonly string[];
}
export type KeepAnswer = "kept" | "newer" | "failed";
