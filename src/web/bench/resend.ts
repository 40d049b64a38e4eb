/** s between two attempts while nobody answers: doubled each time, at most a minute. */
export const pauseAfter = (failures: number): number => Math.min(60, 2 ** Math.max(0, failures));

export interface ResendTools {
  /** one attempt; true when the server answered. Never rejects. */
  attempt(): Promise<boolean>;
  /** calls back after some seconds; the result takes it back */
  later(seconds: number, call: () => void): () => void;
  /** s between two looks at the log while all is well */
  readonly rest: number;
}

/** Tries at once when told to, and again and again until it got through; then looks at the log now and then. */
export class Resend {
  readonly #tools: ResendTools;
  #failures = 0;
  #busy = false;
  #again = false;
  #stopped = false;
  #cancel: () => void = () => undefined;

  constructor(tools: ResendTools) {
    this.#tools = tools;
  }

  /** Something changed, or the network may be back: try now. */
  readonly now = (): void => {
    if (this.#stopped) return;
    if (this.#busy) {
      this.#again = true;
      return;
    }
    void this.#run();
  };

  readonly stop = (): void => {
    this.#stopped = true;
    this.#cancel();
  };

  async #run(): Promise<void> {
    this.#cancel();
    this.#busy = true;
    this.#again = false;
    const through = await this.#tools.attempt();
    this.#busy = false;
    this.#failures = through ? 0 : this.#failures + 1;
    if (this.#stopped) return;
    // What came in during the attempt goes at once, unless nobody answers.
    if (this.#again && through) return this.now();
    this.#cancel = this.#tools.later(through ? this.#tools.rest : pauseAfter(this.#failures), this.now);
  }
}
