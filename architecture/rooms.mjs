/**
 * The one table of rooms. dependency-cruiser, the doors in package.json `imports`, the alias maps of the
 * bundlers and the type-check environments are all derived from it or tested against it.
 * `may` lists every room that the room may import; `env` says which globals it may touch.
 */
const ground = ["units", "numerics", "sources", "terms", "loops"];
const data = [...ground, "library"];
const physics = ["safety", "edges", "patch", "removal", "heat", "light", "beam"];
const method = ["report", "drawing", "cost", "window", "calibration", "trial", "grading", "gauging"];
const rightOf = (row, name) => row.slice(row.indexOf(name) + 1);

export const rooms = [
  { name: "units", line: "quantities: parse and print with units, SI inside", env: "core", may: [] },
  {
    name: "numerics",
    line: "mathematics: special functions, linear algebra, random streams, quadrature",
    env: "core",
    may: [],
  },
  { name: "sources", line: "the bibliography: every source id that a figure may cite", env: "core", may: [] },
  {
    name: "terms",
    line: "record types in the words of the trade, SI inside; no computation",
    env: "core",
    may: ["units"],
  },
  {
    name: "loops",
    line: "innermost loops: SIMD WebAssembly beside a plain TypeScript twin",
    env: "core",
    may: [],
  },
  {
    name: "library",
    line: "metals, layers, laser set-ups, fume entries: one data file per source",
    env: "core",
    may: ground,
  },
  { name: "beam", line: "spot, fluence, overlap, dwell, pulse energy limits", env: "core", may: data },
  {
    name: "light",
    line: "two-flux optics of a layer stack on metal",
    env: "core",
    may: [...data, ...rightOf(physics, "light")],
  },
  {
    name: "heat",
    line: "closed forms, the layered column, warming across the plate",
    env: "core",
    may: [...data, ...rightOf(physics, "heat")],
  },
  {
    name: "removal",
    line: "what one pulse or one line pass takes off, and what it does to the metal",
    env: "core",
    may: [...data, ...rightOf(physics, "removal")],
  },
  {
    name: "patch",
    line: "a whole patch: residue, peak temperature, melt, metal condition",
    env: "core",
    may: [...data, ...rightOf(physics, "patch")],
  },
  {
    name: "edges",
    line: "at which power each version of the physics begins to clean and to harm, for many settings",
    env: "core",
    may: [...data, ...rightOf(physics, "edges")],
  },
  {
    name: "safety",
    line: "exposure limits, hazard distance, eyewear, fume flags",
    env: "core",
    may: [...data, ...rightOf(physics, "safety")],
  },
  {
    name: "grading",
    line: "photographs and gauges to outcomes; colour difference",
    env: "core",
    may: [...data, ...physics],
  },
  {
    name: "gauging",
    line: "gauge studies, agreement of graders, beam checks from burn marks",
    env: "core",
    may: [...data, ...physics],
  },
  {
    name: "trial",
    line: "designs, coupon layout, run order",
    env: "core",
    may: [...data, ...physics, ...rightOf(method, "trial")],
  },
  {
    name: "calibration",
    line: "what the outcomes of trials say of the physical parameters: posterior draws",
    env: "core",
    may: [...data, ...physics, ...rightOf(method, "calibration")],
  },
  {
    name: "window",
    line: "outcomes and physics into a process window and a recommendation",
    env: "core",
    may: [...data, ...physics, ...rightOf(method, "window")],
  },
  {
    name: "cost",
    line: "area rate to hours and money",
    env: "core",
    may: [...data, ...physics, ...rightOf(method, "cost")],
  },
  {
    name: "drawing",
    line: "the signature drawings as SVG and as one line of text",
    env: "core",
    may: [...data, ...physics, ...rightOf(method, "drawing")],
  },
  {
    name: "report",
    line: "the report model, its HTML and its typst source data",
    env: "core",
    may: [...data, ...physics, ...rightOf(method, "report")],
  },
  {
    name: "contract",
    line: "wire shapes and their JSON Schemas; the edge of units",
    env: "core",
    may: [...data, ...physics, ...method],
  },
  {
    name: "workflows",
    line: "one use case per file: predict, plan, record, window, next, compare, report",
    env: "core",
    may: [...data, ...physics, ...method, "contract"],
  },
  {
    name: "truth",
    line: "synthetic coupons of another form than the model; only tools and tests may use it",
    env: "core",
    may: [...data, "beam"],
  },
  {
    name: "referee",
    line: "a direct three-dimensional enthalpy solver that checks the fast models; only tools and tests may use it",
    env: "core",
    may: [...data, ...physics],
  },
  {
    name: "markers",
    line: "finding the printed markers in a grey picture, by a library that runs in Node and in a browser worker",
    env: "core",
    may: ["units", "grading"],
  },
  {
    name: "photos",
    line: "files of photographs to upright pictures; what is not one, or too large, is refused from its head",
    env: "node",
    may: ["units", "grading"],
  },
  {
    name: "compute",
    line: "sweeps over worker threads, with progress and cancel",
    env: "node",
    may: [...data, ...physics, ...method, "contract", "workflows", "markers", "photos"],
  },
  {
    name: "store",
    line: "records that survive: one contract, an embedded database",
    env: "node",
    may: [...data, "contract"],
  },
  {
    name: "archive",
    line: "kept trials by likeness and by age, with what each found",
    env: "node",
    may: [...data, ...physics, ...method, "contract", "workflows", "store"],
  },
  {
    name: "server",
    line: "the local HTTP API and the pages",
    env: "node",
    may: [
      ...data,
      ...physics,
      ...method,
      "contract",
      "workflows",
      "markers",
      "photos",
      "compute",
      "store",
      "archive",
      "papers",
      "exchange",
    ],
  },
  {
    name: "exchange",
    line: "tables as workbooks, a whole trial as one archive of an open standard, and back",
    env: "node",
    may: [...data, ...physics, ...method, "contract", "store"],
  },
  { name: "papers", line: "report models set as PDF", env: "node", may: [...data, ...method, "contract"] },
  {
    name: "cli",
    line: "the commands",
    env: "node",
    may: [
      ...data,
      ...physics,
      ...method,
      "contract",
      "workflows",
      "markers",
      "photos",
      "compute",
      "store",
      "archive",
      "server",
      "papers",
      "exchange",
    ],
  },
  {
    name: "web",
    line: "the pages and the browser worker",
    env: "web",
    may: [...data, ...physics, ...method, "contract", "workflows", "markers"],
  },
];

export const roomNames = rooms.map((r) => r.name);
