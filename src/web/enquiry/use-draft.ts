import { useCallback, useEffect, useRef, useState } from "react";
import { Refused } from "../api/client.ts";
import { type EnquiryDoc, getEnquiry, putEnquiry } from "../api/enquiries.ts";
import { dropLocal, keepLocal, readLocal } from "./local-draft.ts";

export type SaveState = "opening" | "saved" | "waiting" | "saving" | "offline" | "refused" | "conflict" | "missing";

export interface Draft {
  readonly doc: EnquiryDoc | null;
  readonly version: number;
  readonly save: SaveState;
  readonly line: string | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly change: (next: (doc: EnquiryDoc) => EnquiryDoc) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  /** after a conflict: take what the server has, or write ours over it */
  readonly settle: (choice: "theirs" | "mine") => void;
}

interface Timeline {
  readonly past: readonly EnquiryDoc[];
  readonly now: EnquiryDoc | null;
  readonly future: readonly EnquiryDoc[];
}

const undoDepth = 200;
const quietTime = 500;

/** One enquiry being edited: undo, autosave with versions, and a copy in this browser until the server has it. */
export function useDraft(enquiryId: string): Draft {
  const [line, setLine] = useState<string | null>(null);
  const [save, setSave] = useState<SaveState>("opening");
  const [time, setTime] = useState<Timeline>({ past: [], now: null, future: [] });
  const version = useRef(0);
  const saved = useRef<EnquiryDoc | null>(null);
  const sending = useRef(false);
  const latest = useRef<EnquiryDoc | null>(null);
  latest.current = time.now;

  const load = useCallback(
    async (signal: AbortSignal | undefined, keepMine: boolean) => {
      try {
        const answer = await getEnquiry(enquiryId, signal);
        version.current = answer.version;
        saved.current = answer.enquiry;
        const mine = keepMine ? readLocal(enquiryId) : null;
        if (mine && mine.version === answer.version) {
          setTime({ past: [answer.enquiry], now: mine.doc, future: [] });
          setSave("waiting");
        } else {
          setTime({ past: [], now: answer.enquiry, future: [] });
          setSave("saved");
        }
        setLine(null);
      } catch (error) {
        if (signal?.aborted) return;
        setLine(error instanceof Error ? error.message : String(error));
        setSave(error instanceof Refused && error.status === 404 ? "missing" : "offline");
      }
    },
    [enquiryId],
  );

  useEffect(() => {
    const abort = new AbortController();
    void load(abort.signal, true);
    return () => abort.abort();
  }, [load]);

  const send = useCallback(async () => {
    const doc = latest.current;
    if (sending.current || doc === null || doc === saved.current) return;
    sending.current = true;
    setSave("saving");
    try {
      const answer = await putEnquiry(enquiryId, version.current, doc);
      version.current = answer.version;
      saved.current = doc;
      setLine(null);
      if (latest.current === doc) {
        dropLocal(enquiryId);
        setSave("saved");
      } else setSave("waiting");
    } catch (error) {
      setLine(error instanceof Error ? error.message : String(error));
      const status = error instanceof Refused ? error.status : 0;
      setSave(status === 409 ? "conflict" : status === 0 || status >= 500 || status === 429 ? "offline" : "refused");
    } finally {
      sending.current = false;
    }
  }, [enquiryId]);

  useEffect(() => {
    if (time.now === null || time.now === saved.current) return;
    keepLocal(enquiryId, version.current, time.now);
    if (save === "conflict") return;
    setSave((was) => (was === "saving" ? was : "waiting"));
    const timer = setTimeout(() => void send(), quietTime);
    return () => clearTimeout(timer);
  }, [time.now, enquiryId, send, save === "conflict"]);

  // Whatever came in while a save was on its way, or while the server was away, is sent as soon as it can be.
  useEffect(() => {
    if (save !== "offline" && save !== "waiting") return;
    const timer = setTimeout(() => void send(), save === "offline" ? 4000 : quietTime);
    return () => clearTimeout(timer);
  }, [save, send, line]);

  const change = useCallback((next: (doc: EnquiryDoc) => EnquiryDoc) => {
    setTime((was) => {
      if (was.now === null) return was;
      const now = next(was.now);
      if (now === was.now) return was;
      return { past: [...was.past.slice(-undoDepth), was.now], now, future: [] };
    });
  }, []);
  const undo = useCallback(() => {
    setTime((was) => {
      const back = was.past.at(-1);
      return back && was.now ? { past: was.past.slice(0, -1), now: back, future: [was.now, ...was.future] } : was;
    });
  }, []);
  const redo = useCallback(() => {
    setTime((was) => {
      const on = was.future[0];
      return on && was.now ? { past: [...was.past, was.now], now: on, future: was.future.slice(1) } : was;
    });
  }, []);
  const settle = useCallback(
    (choice: "theirs" | "mine") => {
      if (choice === "theirs") {
        dropLocal(enquiryId);
        void load(undefined, false);
        return;
      }
      void getEnquiry(enquiryId).then(
        (answer) => {
          version.current = answer.version;
          setSave("waiting");
        },
        () => setSave("offline"),
      );
    },
    [enquiryId, load],
  );

  return {
    doc: time.now,
    version: version.current,
    save,
    line,
    canUndo: time.past.length > 0,
    canRedo: time.future.length > 0,
    change,
    undo,
    redo,
    settle,
  };
}
