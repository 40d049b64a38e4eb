/**
 * Index of the first character at which a text stops being JSON (RFC 8259), or -1 when it is JSON.
 * Engines word and place their own complaint differently, some without a place; a person needs the same line
 * and column everywhere. It walks with its own stack, so that deep nesting cannot exhaust the call stack.
 */
export function firstJsonFault(text: string): number {
  const open: ("{" | "[")[] = [];
  let at = 0;
  let want: "value" | "value-or-end" | "key" | "key-or-end" | "after" = "value";
  const blank = /[ \t\n\r]*/y;
  const scalar = /true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
  // biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids them inside strings
  const string = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;
  const match = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    const length = pattern.exec(text)?.[0].length ?? 0;
    at += length;
    return length > 0;
  };
  for (;;) {
    match(blank);
    const character = text[at];
    if (want === "after" && open.length === 0) return at === text.length ? -1 : at;
    if (character === undefined) return at;
    if (want === "after") {
      const inside = open.at(-1);
      if (character === ",") want = inside === "{" ? "key" : "value";
      else if (character === (inside === "{" ? "}" : "]")) open.pop();
      else return at;
      at += 1;
    } else if (want === "key" || want === "key-or-end") {
      if (want === "key-or-end" && character === "}") {
        open.pop();
        at += 1;
        want = "after";
        continue;
      }
      if (!match(string)) return at;
      match(blank);
      if (text[at] !== ":") return at;
      at += 1;
      want = "value";
    } else if (want === "value-or-end" && character === "]") {
      open.pop();
      at += 1;
      want = "after";
    } else if (character === "{" || character === "[") {
      open.push(character);
      at += 1;
      want = character === "{" ? "key-or-end" : "value-or-end";
    } else if (match(character === '"' ? string : scalar)) want = "after";
    else return at;
  }
}
