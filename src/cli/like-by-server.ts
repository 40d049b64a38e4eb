import type { ArchiveWire, LikeWire } from "#contract";
import { invalid } from "#units";
import type { LikeFlags, LikeFound } from "./like-flags.ts";
import { askServer, type Door } from "./server-api.ts";

/** Most that the server gives on one page. */
const PAGE = 100;

/** Trials by likeness to a question in words, page after page, as many as are asked for. */
export async function likeByServer(
  door: Door,
  text: string,
  { laser, most }: Pick<LikeFlags, "laser" | "most">,
): Promise<LikeFound> {
  const pages: ArchiveWire[] = [];
  const trials: ArchiveWire["trials"] = [];
  do {
    const query = new URLSearchParams({ text, offset: String(trials.length), most: String(Math.min(PAGE, most)) });
    if (laser !== undefined) query.set("laser", laser);
    const page = await askServer<ArchiveWire>(door, "GET", `/archive?${query}`);
    pages.push(page);
    trials.push(...page.trials);
    if (page.trials.length === 0) break;
  } while (trials.length < Math.min(most, pages[0]?.near ?? 0));
  const [first] = pages;
  if (first === undefined) throw new Error("the server gave no page of the archive");
  if (first.question === null)
    invalid(
      "question",
      text.trim().slice(0, 60),
      "",
      'names no layer, metal or set-up of the library; for example "white polyurethane on 5083"',
    );
  const shown = trials.slice(0, most);
  const cautions = [...new Set(shown.flatMap((t) => t.cautions))];
  return {
    near: first.near,
    wire: {
      question: first.question,
      ignored: first.ignored,
      compared: first.compared,
      notCompared: first.notCompared,
      trials: shown.map(likeOnly),
      cautions: cautions.length > 0 ? cautions : first.cautions,
      modelVersion: first.modelVersion,
    },
  };
}

/** A line of the archive's page without what only pages show. */
function likeOnly(hit: ArchiveWire["trials"][number]): LikeWire["trials"][number] {
  const {
    title: _t,
    partName: _p,
    stackWords: _s,
    layers: _l,
    laserName: _n,
    savedAt: _a,
    cautions: _c,
    ...like
  } = hit;
  return { ...like, likeness: hit.likeness ?? 0 };
}
