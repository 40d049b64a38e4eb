import type { GradingWire } from "#contract";
import type { PartEnquiry, Trial } from "#terms";
import { Refused } from "../api/client.ts";
import type { GradingRecord, ServerReading } from "../api/photographs.ts";
import { Cancelled } from "../live/cancelled.ts";
import { words } from "../words/index.ts";
import type {
  KeptHere,
  NamedPhoto,
  PhotoProgress,
  ReadAnswer,
  ReadAsk,
  SheetAsPrinted,
  SortedPhoto,
} from "./protocol.ts";
import { carryRulings } from "./rulings.ts";
import { Undecodable } from "./undecodable.ts";

export interface IntakeState extends KeptHere {
  /** what is being done, null when nothing is */
  readonly busy: { readonly words: string; readonly share: number | null } | null;
  readonly failure: string | null;
  readonly cancelled: boolean;
}

/** What an intake needs of the world; the pages hand in server and worker. */
export interface IntakeTools {
  putPhoto(file: Blob, signal: AbortSignal): Promise<{ readonly sha256: string }>;
  read(ask: ReadAsk, onProgress: (progress: PhotoProgress) => void): Promise<ReadAnswer>;
  stopReading(): void;
  gradeOnServer(
    trialId: string,
    photos: readonly NamedPhoto[],
    sheet: SheetAsPrinted,
    signal: AbortSignal,
  ): Promise<ServerReading>;
  putGrading(grading: GradingWire, version: number): Promise<GradingRecord>;
  /** the latest of the trial */
  gradings(): Promise<readonly GradingRecord[]>;
  noteFlat(sha256: string, printScale: number, file: Blob): void;
  /** what this browser keeps for the next time */
  kept(): KeptHere;
  keep(kept: KeptHere): void;
}

/** What the readings are made for. */
export interface IntakeAsk extends SheetAsPrinted {
  readonly trial: Trial;
  readonly part: PartEnquiry;
  readonly cautions: readonly string[];
}

const MOST_BYTES = 30_000_000;

/**
 * The photographs of one trial on their way: kept by the server first, then read in the browser, or by the server where
 * the browser cannot open a file, then saved as a new version with what people said before. It outlives the step.
 */
export class PhotoIntake {
  readonly #trialId: string;
  readonly #tools: IntakeTools;
  readonly #listeners = new Set<() => void>();
  #state: IntakeState;
  #stop = new AbortController();

  constructor(trialId: string, tools: IntakeTools) {
    this.#trialId = trialId;
    this.#tools = tools;
    this.#state = { ...tools.kept(), busy: null, failure: null, cancelled: false };
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  readonly state = (): IntakeState => this.#state;

  dismiss(name: string): void {
    this.#set({ refused: this.#state.refused.filter((r) => r.name !== name) });
  }

  cancel(): void {
    this.#stop.abort();
    this.#tools.stopReading();
  }

  /** Keeps files and reads them with all that the trial has already. */
  add(files: readonly File[], ask: IntakeAsk): Promise<void> {
    return this.#work(async () => {
      const earlier = photosOf(await this.#tools.gradings());
      for (const [i, file] of files.entries()) {
        const taken = [...earlier, ...this.#state.pending];
        const name = freeName(file.name || "photograph", taken);
        this.#busy(words.photographs.busy.keeping(name, i + 1, files.length), i / files.length);
        await this.#keep(file, name, taken);
      }
      if (this.#state.pending.length > 0) await this.#read(ask, false);
    });
  }

  /** Reads photographs that the server keeps already, as those taken at the machine, with all that the trial has. */
  addKept(photos: readonly NamedPhoto[], ask: IntakeAsk): Promise<void> {
    return this.#work(async () => {
      const earlier = photosOf(await this.#tools.gradings());
      for (const { name, sha256 } of photos) {
        const taken = [...earlier, ...this.#state.pending];
        if (taken.some((p) => p.sha256 === sha256)) continue;
        this.#set({ pending: [...this.#state.pending, { name: freeName(name, taken), sha256 }] });
      }
      if (this.#state.pending.length > 0) await this.#read(ask, false);
    });
  }

  /** Reads those that were kept and not read yet. */
  readPending(ask: IntakeAsk): Promise<void> {
    return this.#work(() => this.#read(ask, false));
  }

  /** Reads all photographs of the trial anew. */
  readAgain(ask: IntakeAsk): Promise<void> {
    return this.#work(() => this.#read(ask, true));
  }

  async #work(work: () => Promise<void>): Promise<void> {
    if (this.#state.busy !== null) return;
    this.#stop = new AbortController();
    this.#set({ busy: { words: "", share: null }, failure: null, cancelled: false });
    try {
      await work();
    } catch (error) {
      if (error instanceof Cancelled || this.#stop.signal.aborted) this.#set({ cancelled: true });
      else this.#set({ failure: error instanceof Error ? error.message : String(error) });
    }
    this.#set({ busy: null });
  }

  async #keep(file: File, name: string, taken: readonly NamedPhoto[]): Promise<void> {
    if (file.size > MOST_BYTES) return this.#refuse(name, words.photographs.tooLarge);
    try {
      const { sha256 } = await this.#tools.putPhoto(file, this.#stop.signal);
      const twin = taken.find((p) => p.sha256 === sha256);
      if (twin !== undefined) return this.#refuse(name, words.photographs.twin(twin.name));
      this.#set({ pending: [...this.#state.pending, { name, sha256 }] });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.#refuse(name, error.status === 0 ? words.photographs.notKept : error.message);
    }
  }

  /** Coupons with a photograph that is new, or all of them. */
  async #read(ask: IntakeAsk, all: boolean): Promise<void> {
    const records = await this.#tools.gradings();
    const earlier = photosOf(records);
    const fresh = this.#state.pending.filter(({ sha256 }) => !earlier.some((p) => p.sha256 === sha256));
    const photos = [...earlier, ...fresh.map((p) => ({ ...p, coupon: null }))];
    if (photos.length === 0) return;
    const { gradings, unread } = await this.#readSomewhere({ ...ask, photos, all });
    this.#busy(words.photographs.busy.saving, null);
    const added = new Set(fresh.map((p) => p.sha256));
    for (const grading of gradings)
      if (all || grading.photos.some((p) => added.has(p.sha256))) await this.#save(grading);
    for (const { name, line } of unread) this.#refuse(name, line);
    this.#set({ pending: [] });
  }

  async #readSomewhere(ask: ReadAsk): Promise<Reading> {
    try {
      return await this.#readHere(ask);
    } catch (error) {
      if (!(error instanceof Undecodable)) throw error;
      this.#busy(words.photographs.busy.server(ask.photos.length), null);
      const { gradings, unread, refused } = await this.#tools.gradeOnServer(
        this.#trialId,
        ask.photos.map(({ name, sha256 }) => ({ name, sha256 })),
        ask,
        this.#stop.signal,
      );
      return { gradings, unread: [...unreadLines(unread), ...refused.map((r) => ({ name: r.name, line: r.error }))] };
    }
  }

  async #readHere(ask: ReadAsk): Promise<Reading> {
    const say = words.photographs.busy;
    const answer = await this.#tools.read(ask, ({ name, stage, done, of }) =>
      this.#busy(name === "" ? say.joining : say[stage](name, done + 1, of), done / of),
    );
    for (const { sha256, file } of answer.flats) this.#tools.noteFlat(sha256, ask.printScale, file);
    const gradings: GradingWire[] = [];
    for (const grading of answer.gradings) {
      const best = answer.flats.find((f) => f.sha256 === answer.best[grading.coupon]);
      const flat = best === undefined ? null : (await this.#tools.putPhoto(best.file, this.#stop.signal)).sha256;
      gradings.push({ ...grading, flat });
    }
    return { gradings, unread: unreadLines(answer.unread) };
  }

  /** A new version with what people said before; once more where somebody else saved meanwhile. */
  async #save(grading: GradingWire): Promise<void> {
    for (const last of [false, true]) {
      const before = (await this.#tools.gradings()).find((r) => r.grading.coupon === grading.coupon) ?? null;
      try {
        await this.#tools.putGrading(carryRulings(before?.grading ?? null, grading), before?.version ?? 0);
        return;
      } catch (error) {
        if (last || !(error instanceof Refused) || error.status !== 409) throw error;
      }
    }
  }

  #refuse(name: string, line: string): void {
    this.#set({ refused: [...this.#state.refused.filter((r) => r.name !== name), { name, line }] });
  }

  #busy(said: string, share: number | null): void {
    if (this.#stop.signal.aborted) throw new Cancelled("cancelled");
    this.#set({ busy: { words: said, share } });
  }

  #set(change: Partial<IntakeState>): void {
    this.#state = { ...this.#state, ...change };
    if ("pending" in change || "refused" in change) {
      const { pending, refused } = this.#state;
      this.#tools.keep({ pending, refused });
    }
    for (const listener of this.#listeners) listener();
  }
}

interface Reading {
  readonly gradings: readonly GradingWire[];
  readonly unread: readonly { readonly name: string; readonly line: string }[];
}

const unreadLines = (unread: ReadAnswer["unread"]): Reading["unread"] =>
  unread.map(({ name, gates }) => ({ name, line: gates.map((g) => g.sentence).join(" ") }));

const photosOf = (records: readonly GradingRecord[]): SortedPhoto[] =>
  records.flatMap(({ grading: { photos, coupon } }) => photos.map(({ name, sha256 }) => ({ name, sha256, coupon })));

/** The name itself, or with a number where another photograph has it already. */
function freeName(name: string, taken: readonly NamedPhoto[]): string {
  const used = new Set(taken.map((p) => p.name));
  if (!used.has(name)) return name;
  let n = 2;
  while (used.has(`${name} (${n})`)) n += 1;
  return `${name} (${n})`;
}
