import type { Metre } from "#terms";
import type { Rgb } from "./picture-colour.ts";

/** Reads maps between the middles of their cells, straight both ways; held at the rim. */
export class Between {
  readonly #columns: number;
  readonly #rows: number;
  #at = 0;
  #right = 0;
  #down = 0;
  #wx = 0;
  #wy = 0;

  constructor(columns: number, rows: number) {
    this.#columns = columns;
    this.#rows = rows;
  }

  /** x and y in cells, whole numbers at the middles of cells */
  move(x: number, y: number): void {
    const u = Math.min(this.#columns - 1, Math.max(0, x));
    const v = Math.min(this.#rows - 1, Math.max(0, y));
    const i = Math.floor(u);
    const j = Math.floor(v);
    this.#at = j * this.#columns + i;
    this.#right = i + 1 < this.#columns ? 1 : 0;
    this.#down = j + 1 < this.#rows ? this.#columns : 0;
    this.#wx = u - i;
    this.#wy = v - j;
  }

  read(map: Float32Array): number {
    const a = this.#at;
    const top = map[a]! + this.#wx * (map[a + this.#right]! - map[a]!);
    const b = a + this.#down;
    const bottom = map[b]! + this.#wx * (map[b + this.#right]! - map[b]!);
    return top + this.#wy * (bottom - top);
  }
}

/** Mean colour and oxide of the pixels of one kind, so that a legend names the colour that is really there. */
export class Mean {
  #red = 0;
  #green = 0;
  #blue = 0;
  #oxide = 0;
  count = 0;

  add(colour: Rgb, oxide: number): void {
    this.#red += colour[0];
    this.#green += colour[1];
    this.#blue += colour[2];
    this.#oxide += oxide;
    this.count++;
  }

  get colour(): Rgb {
    return [this.#red / this.count, this.#green / this.count, this.#blue / this.count];
  }

  get oxide(): Metre {
    return this.#oxide / this.count;
  }
}
