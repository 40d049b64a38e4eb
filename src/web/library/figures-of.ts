import { formatNumber } from "#units";

export interface LibraryFigure {
  readonly name: string;
  readonly value: string;
  readonly low: number | null;
  readonly high: number | null;
  readonly source: string | null;
  readonly fromMemory: boolean;
}

interface Loose {
  readonly [key: string]: unknown;
}

/** "latentHeatMelting" as "latent heat melting". */
const spaced = (name: string): string => name.replace(/([A-Z])/g, " $1").toLowerCase();

/** Every figure of a library entry, however deep it lies, flat and readable. */
export function figuresOf(entry: object): LibraryFigure[] {
  const list: LibraryFigure[] = [];
  walk(entry as Loose, "", list);
  return list;
}

function walk(value: Loose, path: string, list: LibraryFigure[]): void {
  for (const [key, inner] of Object.entries(value)) {
    if (path === "" && (key === "id" || key === "name")) continue;
    const name = path === "" ? spaced(key) : `${path}, ${spaced(key)}`;
    if (inner === null || inner === undefined) continue;
    if (typeof inner === "number")
      list.push({ name, value: formatNumber(inner, 4), low: null, high: null, source: null, fromMemory: false });
    else if (typeof inner === "string" || typeof inner === "boolean") {
      if (key !== "source" && key !== "fromMemory")
        list.push({ name, value: String(inner), low: null, high: null, source: null, fromMemory: false });
    } else if (Array.isArray(inner)) {
      if (inner.every((x) => typeof x === "string"))
        list.push({ name, value: inner.join(", "), low: null, high: null, source: null, fromMemory: false });
      else
        inner.forEach((x, i) => {
          if (typeof x === "object" && x !== null) walk(x as Loose, `${name} ${i + 1}`, list);
        });
    } else if (typeof inner === "object") figure(inner as Loose, name, list);
  }
}

function figure(inner: Loose, name: string, list: LibraryFigure[]): void {
  const { value, unit, source, fromMemory, low, high, temperature } = inner;
  const about = { source: typeof source === "string" ? source : null, fromMemory: fromMemory === true };
  if (typeof value === "number")
    list.push({
      name,
      value: `${formatNumber(value, 4)} ${unit === "1" ? "" : String(unit ?? "")}`,
      low: typeof low === "number" ? low : null,
      high: typeof high === "number" ? high : null,
      ...about,
    });
  else if (Array.isArray(value) && Array.isArray(temperature))
    list.push({
      name,
      value: `${formatNumber(value[0] as number, 3)} … ${formatNumber(value[value.length - 1] as number, 3)} ${String(unit)} over ${temperature[0]} … ${temperature[temperature.length - 1]} K`,
      low: null,
      high: null,
      ...about,
    });
  else walk(inner, name, list);
}
