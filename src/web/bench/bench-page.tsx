import { words } from "../words/index.ts";

/** The run list of a trial, to tick off at the machine. */
export function BenchPage({ trialId }: { readonly trialId: string }) {
  return (
    <main id="work" tabIndex={-1} className="page">
      <h1>{words.bench.title}</h1>
      <p>{trialId}</p>
    </main>
  );
}
