import { useCallback, useEffect, useRef, useState } from "react";
import type { LaserSetup, Setting } from "#terms";
import type { Library } from "#library";
import { goTo, linkTo, type Place } from "../../app/route.ts";
import {
  keepSecond,
  keepWorkingSetting,
  readSecond,
  readWorkingSetting,
  type WorkingSetting,
} from "../../live/kept-choice.ts";
import { changed, redone, startOf, undone } from "../../undo/timeline.ts";
import { useUndoTarget } from "../../undo/undo-target.ts";
import { words } from "../../words/index.ts";
import { moveWith } from "./linked.ts";
import { settingOf, settingWord } from "./setting-link.ts";

/** One laser or two beside each other, and whether the controls move together. */
export interface Stands {
  readonly first: WorkingSetting;
  readonly second: WorkingSetting | null;
  readonly linked: boolean;
}

/** A setting, or how it follows from the one that holds; `cause` names the control, so that one drag is one step back. */
export type Move = (setup: LaserSetup, next: Setting | ((now: Setting) => Setting), cause: string) => void;

const controls: readonly string[] = [
  "power",
  "level",
  "duty",
  "frequency",
  "speed",
  "lineSpacing",
  "passes",
  "defocus",
];

/** Whether a change was made at a control or on the map, rather than by taking a whole setting. */
const dragged = (cause: string): boolean => controls.includes(cause) || cause.startsWith("map ");

const URL_REST_MS = 500;

/** A working setting that a link names, or null where it names none that the library's set-ups can run. */
function linkedTo(library: Library, laser: string | undefined, word: string | undefined): WorkingSetting | null {
  const setup = library.setups.find((s) => s.id === laser);
  const setting = setup && word ? settingOf(word, setup) : null;
  return setup && setting ? { setupId: setup.id, setting } : null;
}

/** Working settings of a part: from the link, else as they were left, else from `first`. Kept, undone, linked to. */
export function useStands(
  library: Library,
  enquiryId: string,
  partId: string,
  place: Place,
  first: () => WorkingSetting,
) {
  const usable = (kept: WorkingSetting | null) =>
    kept !== null && library.setups.some((s) => s.id === kept.setupId) ? kept : null;
  const { laser, set, beside, besideSet } = place.query;
  const [fresh] = useState(
    () => linkedTo(library, laser, set) === null && usable(readWorkingSetting(enquiryId, partId)) === null,
  );
  const [line, setLine] = useState(() =>
    startOf<Stands>({
      first: linkedTo(library, laser, set) ?? usable(readWorkingSetting(enquiryId, partId)) ?? first(),
      second: set ? linkedTo(library, beside, besideSet) : usable(readSecond(enquiryId, partId)),
      linked: true,
    }),
  );
  const stands = line.now;
  const [begun] = useState(stands.first);
  const written = useRef(set);

  useEffect(() => {
    keepWorkingSetting(enquiryId, partId, stands.first);
    keepSecond(enquiryId, partId, stands.second);
    const timer = setTimeout(() => {
      const word = settingWord(stands.first.setting);
      written.current = word;
      const query = {
        part: partId,
        laser: stands.first.setupId,
        set: word,
        beside: stands.second?.setupId,
        besideSet: stands.second ? settingWord(stands.second.setting) : null,
      };
      goTo(linkTo({ enquiryId, step: "setting", query }), true);
    }, URL_REST_MS);
    return () => clearTimeout(timer);
  }, [stands, enquiryId, partId]);

  // A link that was opened on this very page.
  useEffect(() => {
    if (!set || set === written.current) return;
    const other = linkedTo(library, laser, set);
    written.current = set;
    if (other === null) return;
    setLine((now) =>
      changed(now, { ...now.now, first: other, second: linkedTo(library, beside, besideSet) }, "link", Date.now()),
    );
  }, [library, laser, set, beside, besideSet]);

  const put = useCallback((next: (now: Stands) => Stands, cause: string) => {
    setLine((now) => changed(now, next(now.now), cause, Date.now()));
  }, []);

  useUndoTarget({
    name: words.save.undoNames.setting,
    canUndo: line.past.length > 0,
    canRedo: line.future.length > 0,
    undo: () => setLine(undone),
    redo: () => setLine(redone),
  });

  /** One laser's setting moved; the other follows where the two are linked. */
  const move = useCallback(
    (which: "first" | "second", ...[setup, next, cause]: Parameters<Move>) =>
      put((now) => {
        const mine = now[which];
        if (mine === null) return now;
        const setting = typeof next === "function" ? next(mine.setting) : next;
        const moved: WorkingSetting = { setupId: setup.id, setting };
        const otherName = which === "first" ? "second" : "first";
        const other = now[otherName];
        // A control takes the other's along; a setting that was looked up for this laser is for this laser.
        if (!now.linked || other === null || !dragged(cause)) return { ...now, [which]: moved };
        const otherSetup = library.setup(other.setupId);
        const followed = moveWith(setup, mine.setting, setting, otherSetup, other.setting);
        return { ...now, [which]: moved, [otherName]: { ...other, setting: followed } };
      }, `${which} ${cause}`),
    [put, library],
  );

  return { stands, put, move, untouched: fresh && stands.first === begun };
}
