import fc from "fast-check";

const nested = (depth: number): unknown => {
  let value: unknown = 1;
  for (let i = 0; i < depth; i++) value = i % 2 === 0 ? [value] : { a: value };
  return value;
};

/** Values that programs stumble over. */
export const nasty = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    0,
    -1,
    0.5,
    1e308,
    -1e308,
    5e-324,
    2 ** 53,
    -(2 ** 53),
    2 ** 31,
    "",
    " ",
    "NaN",
    "Infinity",
    "-Infinity",
    "1e999",
    "1e308 m",
    "0x10",
    "12,5",
    "unknown",
    "__proto__",
    "constructor",
    "toString",
    "hasOwnProperty",
    "../../etc/passwd",
    "..\\..\\x",
    "\u0000",
    "\ud800",
    "\u2028\u2029",
    "a\nb\r\nc",
    "<script>alert(1)</script>",
    "=1+1",
    "'; DROP TABLE records; --",
    "%00",
    "é".normalize("NFD"),
    "😀".repeat(100),
    [],
    {},
    [[]],
    [null],
    { length: -1 },
    { toString: "x" },
    { toJSON: 1 },
  ),
  fc.constant("x".repeat(20_000)),
  fc.constantFrom(30, 39, 60).map(nested),
  fc.jsonValue({ maxDepth: 3 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.string({ unit: "binary", maxLength: 40 }),
);

type Place = { readonly holder: Record<string, unknown> | unknown[]; readonly key: string | number };

function places(value: unknown, found: Place[] = []): Place[] {
  if (typeof value !== "object" || value === null) return found;
  for (const key of Object.keys(value)) {
    found.push({ holder: value as Record<string, unknown>, key });
    places((value as Record<string, unknown>)[key], found);
  }
  return found;
}

const change = fc.record({
  at: fc.nat(),
  how: fc.constantFrom("put", "put", "put", "drop", "add", "twice", "wrap"),
  value: nasty,
  name: fc.constantFrom("more", "__proto__", "constructor", "prototype", "id", "", "$schema", "length", "0"),
});
type Change = typeof change extends fc.Arbitrary<infer T> ? T : never;

function apply(root: { body: unknown }, { at, how, value: given, name }: Change): void {
  // Its own copy: a later change may reach into it.
  const value = structuredClone(given);
  const all = places(root);
  const place = all[at % all.length];
  if (place === undefined) return;
  const { holder, key } = place;
  const slots = holder as Record<string | number, unknown>;
  if (how === "drop" && !Array.isArray(holder)) delete slots[key];
  else if (how === "add" && !Array.isArray(holder))
    Object.defineProperty(holder, name, { value, enumerable: true, configurable: true, writable: true });
  else if (how === "twice" && Array.isArray(holder)) holder.push(...holder.slice(0, 200));
  else if (how === "wrap") slots[key] = [slots[key]];
  else slots[key] = value;
}

/** A valid body with a few things wrong in it. */
export const mutated = (bodies: readonly unknown[]): fc.Arbitrary<unknown> =>
  fc
    .record({ which: fc.nat(), changes: fc.array(change, { minLength: 0, maxLength: 3 }) })
    .map(({ which, changes }) => {
      const root = { body: structuredClone(bodies[which % bodies.length]) };
      for (const one of changes) apply(root, one);
      return root.body;
    });

/** Text of a body, sometimes damaged on its way. */
export const damaged = fc.constantFrom<(text: string) => Buffer>(
  ...Array.from({ length: 40 }, () => (text: string) => Buffer.from(text)),
  (text) => Buffer.from(text.slice(0, Math.floor(text.length / 2))),
  (text) => Buffer.from(`${text}${text}`),
  (text) => Buffer.from(`\ufeff${text}`),
  (text) => Buffer.concat([Buffer.from(text), Buffer.from([0xff, 0xfe, 0x80, 0xc0])]),
  (text) => Buffer.from(text.replace(/:(\d)/, ":NaN,$1")),
  (text) => Buffer.from(text.replace("{", '{"__proto__":{"polluted":1},')),
  (text) => Buffer.from(text.replaceAll('"', "'")),
  () => Buffer.alloc(0),
  () => Buffer.from("[".repeat(100_000)),
  () => Buffer.from('{"a":'.repeat(50_000)),
  () => Buffer.from("null"),
  () => Buffer.from([0, 1, 2, 0xff, 0xd8, 0xff, 0xe0, 0, 16]),
);

export const mediaTypes = fc.constantFrom<string | null>(
  ...Array.from({ length: 60 }, () => "application/json"),
  "text/csv",
  "text/plain",
  "image/jpeg",
  "image/heic",
  "application/zip",
  "application/octet-stream",
  "application/json; charset=utf-16",
  "multipart/form-data; boundary=x",
  "application/x-www-form-urlencoded",
  "a/b/c",
  "",
  null,
);

/** What stands for a name in an address. */
export const step = (known: readonly string[]): fc.Arbitrary<string> =>
  fc.oneof(
    { weight: 9, arbitrary: fc.constantFrom(...known) },
    {
      weight: 2,
      arbitrary: fc.constantFrom(
        "1",
        "0",
        "-1",
        "1.5",
        "1e9",
        "99999999999999999999",
        "NaN",
        "none",
        "..",
        ".",
        "%2e%2e%2f",
        "..%2f..%2fetc%2fpasswd",
        "%00",
        "%0a",
        "%",
        "%E0%A4%A",
        "%F0%9F%98%80",
        "__proto__",
        "constructor",
        "answer-1",
        "answer-999999999999999",
        "a".repeat(119),
        "a".repeat(199),
        "a".repeat(900),
        "0".repeat(64),
        "'%20OR%201=1--",
        "*",
        "a;b",
        "a?b",
      ),
    },
    { weight: 1, arbitrary: fc.string({ maxLength: 12 }).map(encodeURIComponentOrNone) },
  );

function encodeURIComponentOrNone(text: string): string {
  try {
    return encodeURIComponent(text) || "x";
  } catch {
    return "x";
  }
}
