import { inflateSync } from "node:zlib";

/** Just enough of PDF to read the text of pages back: plain objects, Flate streams, Type 0 fonts with ToUnicode. */
export class PdfText {
  readonly raw: string;

  constructor(bytes: Uint8Array) {
    this.raw = Buffer.from(bytes).toString("latin1");
  }

  private object(number: number): string {
    const start = this.raw.search(new RegExp(`(?:^|\\n)${number} 0 obj\\n`));
    return this.raw.slice(start, this.raw.indexOf("endobj", start));
  }

  private stream(number: number): string {
    const body = this.object(number);
    const data = body.slice(body.indexOf("stream\n") + 7, body.lastIndexOf("\nendstream"));
    return body.includes("/FlateDecode") ? inflateSync(Buffer.from(data, "latin1")).toString("latin1") : data;
  }

  private letters(font: number): Map<number, string> {
    const map = new Map<number, string>();
    const cmap = this.stream(Number(/\/ToUnicode (\d+) 0 R/.exec(this.object(font))![1]));
    for (const [, block] of cmap.matchAll(/beginbfchar\n([\s\S]*?)endbfchar/g))
      for (const [, code, text] of block!.matchAll(/<([0-9A-F]+)> <([0-9A-F]+)>/g)) {
        const units = text!.match(/.{4}/g)!.map((unit) => Number.parseInt(unit, 16));
        map.set(Number.parseInt(code!, 16), String.fromCharCode(...units));
      }
    return map;
  }

  /** The drawing commands of the first page. */
  firstContent(): string {
    return this.stream(Number(/\/Contents (\d+) 0 R/.exec(this.raw)![1]));
  }

  /** Text of each page in the order in which it is set; spaces are as in the file, line ends are lost. */
  pages(): string[] {
    return this.runs().map((runs) => runs.join(""));
  }

  /** The same in the pieces in which it is set: none goes over the end of a line. */
  runs(): string[][] {
    return [...this.raw.matchAll(/\/Type \/Page\n[\s\S]*?endobj/g)].map(([page]) => {
      const fonts = new Map<string, Map<number, string>>();
      const listed = /\/Font <<([\s\S]*?)>>/.exec(page)?.[1] ?? "";
      for (const [, name, font] of listed.matchAll(/\/(\w+) (\d+) 0 R/g)) fonts.set(name!, this.letters(Number(font)));
      const content = this.stream(Number(/\/Contents (\d+) 0 R/.exec(page)![1]));
      let letters = new Map<number, string>();
      const runs: string[] = [];
      for (const { operator, name, strings } of operations(content)) {
        if (operator === "Tf") letters = fonts.get(name)!;
        else if (operator === "TJ" || operator === "Tj")
          runs.push(strings.map((string) => decode(string, letters)).join(""));
      }
      return runs;
    });
  }
}

interface Operation {
  readonly operator: string;
  /** last name before the operator, without its slash */
  readonly name: string;
  /** literal strings before the operator, escapes still in them */
  readonly strings: readonly string[];
}

/** Operators with what stands before them; literal strings may hold balanced brackets. */
function* operations(content: string): Generator<Operation> {
  let name = "";
  let strings: string[] = [];
  for (let at = 0; at < content.length; ) {
    if (content[at] === "(") {
      const end = stringEnd(content, at);
      strings.push(content.slice(at + 1, end));
      at = end + 1;
      continue;
    }
    const word = /^(?:\/[^\s()[\]<>/]*|[^\s()[\]<>/]+)/.exec(content.slice(at, at + 200))?.[0];
    if (word === undefined) at++;
    else {
      at += word.length;
      if (word.startsWith("/")) name = word.slice(1);
      else if (/^[A-Za-z'"*]+$/.test(word)) {
        yield { operator: word, name, strings };
        strings = [];
      }
    }
  }
}

function stringEnd(content: string, start: number): number {
  let depth = 0;
  for (let at = start; at < content.length; at++) {
    if (content[at] === "\\") at++;
    else if (content[at] === "(") depth++;
    else if (content[at] === ")" && --depth === 0) return at;
  }
  throw new Error("a string of the page is not closed");
}

const escapes: Readonly<Record<string, string>> = { n: "\n", r: "\r", t: "\t", b: "\b", f: "\f" };

function decode(string: string, letters: ReadonlyMap<number, string>): string {
  const bytes = string.replace(/\\(?:([0-7]{1,3})|([\s\S]))/g, (_, octal: string | undefined, other: string) =>
    octal === undefined ? (escapes[other] ?? other) : String.fromCharCode(Number.parseInt(octal, 8)),
  );
  let text = "";
  for (let i = 0; i + 1 < bytes.length; i += 2) {
    const code = bytes.charCodeAt(i) * 256 + bytes.charCodeAt(i + 1);
    text += letters.get(code) ?? "";
  }
  return text;
}
