import { useQuery, useQueryClient } from "@tanstack/react-query";
import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { ShopFile } from "#contract";
import { getShop, putShop, type ShopVersion, shopAt } from "../../api/answers.ts";
import { Refused } from "../../api/client.ts";
import { dropShop, keepShop, readShop } from "./kept-shop.ts";
import { checkShop, type Typed, typedOf } from "./shop-text.ts";

export type ShopSave = "opening" | "saved" | "waiting" | "saving" | "offline" | "refused" | "conflict" | "invalid";

export interface ShopDraft {
  readonly typed: Typed;
  /** figures that the fields say, or the last that fitted */
  readonly shop: ShopFile;
  readonly errors: Readonly<Record<string, string>>;
  readonly version: number;
  readonly save: ShopSave;
  readonly line: string | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly change: (path: string, text: string) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  /** takes an earlier version back; it becomes the newest */
  readonly takeBack: (version: number) => void;
  readonly settle: (choice: "theirs" | "mine") => void;
}

interface Timeline {
  readonly past: readonly Typed[];
  readonly now: Typed | null;
  readonly future: readonly Typed[];
}

const nothing: Typed = {};
const quietTime = 400;
const same = (a: Typed | null, b: Typed | null): boolean => JSON.stringify(a) === JSON.stringify(b);

/** The shop figures being edited: checked as they are typed, saved as versions, undone, kept here until saved. */
export function useShop(enquiryId: string): ShopDraft {
  const queries = useQueryClient();
  const [time, setTime] = useState<Timeline>({ past: [], now: null, future: [] });
  const [save, setSave] = useState<ShopSave>("opening");
  const [line, setLine] = useState<string | null>(null);
  const version = useRef(0);
  const saved = useRef<Typed | null>(null);
  const sending = useRef(false);
  const latest = useRef<Typed | null>(null);
  latest.current = time.now;

  const take = useCallback((from: ShopVersion, mine: Typed | null) => {
    version.current = from.version;
    saved.current = typedOf(from.shop);
    setTime(mine ? { past: [saved.current], now: mine, future: [] } : { past: [], now: saved.current, future: [] });
    setSave("saved");
    setLine(null);
  }, []);

  const stored = useQuery({ queryKey: ["shop", enquiryId], queryFn: () => getShop(enquiryId) });
  useEffect(() => {
    if (stored.data === undefined || latest.current !== null) return;
    const mine = readShop(enquiryId);
    take(stored.data, mine && mine.version === stored.data.version ? mine.typed : null);
  }, [stored.data, enquiryId, take]);

  const checked = useMemo(() => checkShop(time.now ?? nothing), [time.now]);
  const fitting = useRef<ShopFile>({});
  if (checked.errors === null) fitting.current = checked.shop;

  const send = useCallback(async () => {
    const typed = latest.current;
    if (sending.current || typed === null || same(typed, saved.current)) return;
    const found = checkShop(typed);
    if (found.errors !== null) return;
    sending.current = true;
    setSave("saving");
    try {
      const answer = await putShop(enquiryId, version.current, found.shop);
      version.current = answer.version;
      saved.current = typed;
      queries.setQueryData(["shop", enquiryId], answer);
      void queries.invalidateQueries({ queryKey: ["shop-history", enquiryId] });
      setLine(null);
      if (same(latest.current, typed)) dropShop(enquiryId);
      setSave(same(latest.current, typed) ? "saved" : "waiting");
    } catch (error) {
      setLine(error instanceof Error ? error.message : String(error));
      const status = error instanceof Refused ? error.status : 0;
      setSave(status === 409 ? "conflict" : status === 0 || status >= 500 || status === 429 ? "offline" : "refused");
    } finally {
      sending.current = false;
    }
  }, [enquiryId, queries]);

  useEffect(() => {
    if (time.now === null || same(time.now, saved.current)) return;
    keepShop(enquiryId, version.current, time.now);
    if (save === "conflict") return;
    if (checked.errors !== null) {
      setSave("invalid");
      return;
    }
    setSave((was) => (was === "saving" ? was : "waiting"));
    const timer = setTimeout(() => void send(), quietTime);
    return () => clearTimeout(timer);
  }, [time.now, enquiryId, send, checked, save === "conflict"]);

  // What came in while a save was on its way, or while the server was away, is sent as soon as it can be.
  useEffect(() => {
    if (save !== "offline" && save !== "waiting") return;
    const timer = setTimeout(() => void send(), save === "offline" ? 4000 : quietTime);
    return () => clearTimeout(timer);
  }, [save, send, line]);

  const put = useCallback((next: Typed) => {
    setTime((was) =>
      was.now === null || same(was.now, next) ? was : { past: [...was.past, was.now], now: next, future: [] },
    );
  }, []);
  const settle = (choice: "theirs" | "mine") => {
    void getShop(enquiryId).then(
      (answer) => {
        if (choice === "theirs") {
          dropShop(enquiryId);
          take(answer, null);
          queries.setQueryData(["shop", enquiryId], answer);
        } else {
          version.current = answer.version;
          setSave("waiting");
        }
      },
      () => setSave("offline"),
    );
  };
  return {
    typed: time.now ?? nothing,
    shop: fitting.current,
    errors: checked.errors ?? {},
    version: version.current,
    save: time.now !== null && same(time.now, saved.current) && save === "invalid" ? "saved" : save,
    line,
    canUndo: time.past.length > 0,
    canRedo: time.future.length > 0,
    change: (path, text) => put(withField(latest.current ?? nothing, path, text)),
    undo: () =>
      setTime((was) => {
        const back = was.past.at(-1);
        return back && was.now ? { past: was.past.slice(0, -1), now: back, future: [was.now, ...was.future] } : was;
      }),
    redo: () =>
      setTime((was) => {
        const on = was.future[0];
        return on && was.now ? { past: [...was.past, was.now], now: on, future: was.future.slice(1) } : was;
      }),
    takeBack: (old) =>
      void shopAt(enquiryId, old).then(
        (answer) => put(typedOf(answer.shop)),
        (error: Error) => setLine(error.message),
      ),
    settle,
  };
}

/** Fields with one changed; an empty one is no field, so that undoing a first entry ends where it began. */
function withField(typed: Typed, path: string, text: string): Typed {
  const { [path]: _, ...rest } = typed;
  return text.trim() === "" ? rest : { ...typed, [path]: text };
}
