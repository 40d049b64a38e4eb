import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { parentPort, workerData } from "node:worker_threads";
import { threadFromSource } from "#compute";
import { createWorld } from "#truth";
import { type ProbitCandidates, probitCandidates } from "./study/probit-model.ts";
import { atLevel, LEVELS, productionDrift } from "#window";
import { driftCases, planners, type PlannerName, runCase, trueBestRate } from "./study/run-case.ts";
import { writeStudyReport } from "./study/report.ts";
import { type ScenarioBook, scenarioBook } from "./study/scenario-book.ts";
import { type CaseRecord, scoreStudy } from "./study/scoring.ts";
import { scenarios, worldMix } from "./study/worlds.ts";

/**
 * The efficiency study: synthetic truths of another form than the product's physics against planners that share prior,
 * settings and stopping rule. `npm run study` runs 20 truths of two jobs; `npm run study -- --truths 1000` the full one.
 * Options: --truths n, --planners a,b (names with dashes for blanks), --threads n, --first n (number of the first truth),
 * --again (no truths: figures and page anew from out/study-cases.json), --compare n (the planners beside the physics-guided one see the first n truths only; all when left out).
 */
interface Flags {
  readonly truths: number;
  readonly first: number;
  readonly compare: number;
  readonly planners: readonly PlannerName[];
  readonly threads: number;
}

const OUT = "out";
const MANY = 1_000_000;
/** Fewer truths than this keep to two jobs, a pulsed one and a continuous one of two layers: solving eight takes longer. */
const FEW = 100;
const FEW_JOBS = [0, 3] as const;
/** Production days that a chance is averaged over, in the world. */
const DAYS = 40;

function flagsOf(argv: readonly string[]): Flags {
  const value = (name: string): string | undefined => {
    const at = argv.indexOf(`--${name}`);
    return at < 0 ? undefined : argv[at + 1];
  };
  const whole = (name: string, usual: number, most: number) => {
    const n = Number(value(name) ?? usual);
    if (!Number.isInteger(n) || n < 0 || n > most)
      throw new Error(`invalid ${name}: ${value(name)} (a whole number up to ${most})`);
    return n;
  };
  const asked = value("planners")
    ?.split(",")
    .map((p) => p.replaceAll("-", " "));
  const known = planners.filter((p) => asked === undefined || asked.includes(p.replaceAll("-", " ")));
  if (known.length === 0) throw new Error(`invalid planners: ${value("planners")} (of ${planners.join(", ")})`);
  const truths = whole("truths", 20, 100_000);
  return {
    truths,
    first: whole("first", 0, MANY),
    compare: whole("compare", MANY, MANY),
    planners: known,
    threads: Math.max(1, whole("threads", 2, 64)),
  };
}

/** Books of the scenarios, solved once for all threads and kept in the out folder. */
function bookOf(scenario: (typeof scenarios)[number]): ScenarioBook {
  return scenarioBook(scenario.id, scenario.part, scenario.setup, `${OUT}/study-books`);
}

function casesOf(
  truth: number,
  flags: Flags,
  books: Map<string, { book: ScenarioBook; probit: ProbitCandidates }>,
): CaseRecord[] {
  const scenario = scenarios[truth % scenarios.length]!;
  let known = books.get(scenario.id);
  if (!known) {
    const book = bookOf(scenario);
    known = { book, probit: flags.planners.includes("probit") ? probitCandidates(book.rays) : [] };
    books.set(scenario.id, known);
  }
  const { book, probit } = known;
  const drift = productionDrift;
  const days = driftCases(drift, DAYS, 77);
  const reference = book.rays[book.centre.family]!;
  const world = createWorld({
    seed: 10_000 + truth,
    setup: scenario.setup,
    acceptance: scenario.part.acceptance,
    nominalThickness: scenario.nominalThickness,
    layers: scenario.layers,
    reference: reference.setting,
    anchors: Array.from(reference.clean, (lnClean, j) => ({ lnClean, lnDamage: reference.damage[j]! })),
    kind: worldMix(truth),
    candidates: book.rays.flatMap((r) => LEVELS.filter((_, k) => k % 2 === 0).map((x) => atLevel(r.setting, x))),
    drift: days,
  });
  const bestRate = trueBestRate(book, world, days);
  const compared = truth < flags.first + flags.compare;
  return flags.planners
    .filter((planner) => compared || planner === "physics-guided")
    .map((planner) =>
      runCase({
        planner,
        scenario: {
          id: scenario.id,
          setup: scenario.setup,
          acceptance: scenario.part.acceptance,
          layers: scenario.layers,
        },
        book,
        probit,
        world,
        drift,
        cases: days,
        bestRate,
        seed: 1 + truth,
      }),
    );
}

/** The numbers of a short run are those of the same two jobs in a long one. */
function truthNumber(i: number, of: number): number {
  if (of >= FEW) return i;
  return scenarios.length * Math.floor(i / FEW_JOBS.length) + FEW_JOBS[i % FEW_JOBS.length]!;
}

interface Share {
  readonly flags: Flags;
  readonly truths: readonly number[];
}

/** One thread: its truths one after the other. */
function workShare({ flags, truths }: Share): void {
  const books = new Map<string, { book: ScenarioBook; probit: ProbitCandidates }>();
  for (const truth of truths) parentPort?.postMessage(casesOf(truth, flags, books));
}

async function main(): Promise<void> {
  const flags = flagsOf(process.argv.slice(2));
  mkdirSync(OUT, { recursive: true });
  const started = Date.now();
  const truths = Array.from({ length: flags.truths }, (_, i) => flags.first + truthNumber(i, flags.truths));
  const start = threadFromSource(new URL(import.meta.url));
  if (start === null) throw new Error("the study runs from a checkout, after npm ci");
  const records: CaseRecord[] = [];
  let done = 0;
  await Promise.all(
    Array.from({ length: flags.threads }, (_, k) => {
      // A thread keeps to its scenarios, so that it reads few books.
      const own = truths.filter((t) => (t % scenarios.length) % flags.threads === k);
      return new Promise<void>((settle, fail) => {
        const worker = start({ flags, truths: own } satisfies Share);
        worker.on("message", (cases: CaseRecord[]) => {
          records.push(...cases);
          done++;
          // A long run that is cut off keeps what it has.
          if (done % 100 === 0) writeFileSync(`${OUT}/study-cases.json`, `${JSON.stringify(records)}\n`);
          if (done % 20 === 0)
            console.error(`${done} of ${truths.length} truths, ${Math.round((Date.now() - started) / 1000)} s`);
        });
        worker.on("error", fail);
        worker.on("exit", (code) =>
          code === 0 ? settle() : fail(new Error(`a thread of the study ended with ${code}`)),
        );
      });
    }),
  );
  writeFileSync(`${OUT}/study-cases.json`, `${JSON.stringify(inOrder(records))}\n`);
  publish(records, Math.round((Date.now() - started) / 1000));
}

const inOrder = (records: CaseRecord[]) =>
  records.sort((a, b) => a.seed - b.seed || a.planner.localeCompare(b.planner));

/** Figures and page of single cases. */
function publish(records: readonly CaseRecord[], seconds: number | null): void {
  const score = scoreStudy(records);
  const truths = new Set(records.map((r) => r.seed)).size;
  writeFileSync(`${OUT}/study.json`, `${JSON.stringify(score.json, null, 2)}\n`);
  writeStudyReport(score, { truths, seconds, file: truths >= 1000 ? "docs/study.md" : `${OUT}/study.md` });
  console.log(score.lines.join("\n"));
}

if (parentPort !== null) workShare(workerData as Share);
else if (process.argv.includes("--again"))
  publish(inOrder(JSON.parse(readFileSync(`${OUT}/study-cases.json`, "utf8")) as CaseRecord[]), null);
else await main();
