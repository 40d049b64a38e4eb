import { Session } from "node:inspector/promises";

/** Stages of reading a coupon, by the functions that begin them: the innermost one that is named has the time. */
const stages: readonly (readonly [name: string, functions: readonly string[]])[] = [
  ["decode", ["decodePhoto"]],
  ["markers", ["coarseMarkers", "searchMissing", "searchIn"]],
  ["pose", ["locateFrame"]],
  ["plate fit", ["fitPlate"]],
  ["cuts", ["cutPatch"]],
  ["light", ["lightOf", "calibrateLight", "calibrate"]],
  ["streaks", ["streaksIn"]],
  ["reading", ["gradeCoupon"]],
];

const stageOf = new Map(stages.flatMap(([name, functions]) => functions.map((f) => [f, name] as const)));

/**
 * Where the time of some work goes, in seconds of this thread sampled every millisecond. What libraries do on threads of
 * their own (decoding) does not show.
 */
export async function timeByStage(work: () => Promise<void>): Promise<ReadonlyMap<string, number>> {
  const session = new Session();
  session.connect();
  await session.post("Profiler.enable");
  await session.post("Profiler.setSamplingInterval", { interval: 1000 });
  await session.post("Profiler.start");
  await work();
  const { profile } = await session.post("Profiler.stop");
  session.disconnect();
  const nodes = new Map(profile.nodes.map((node) => [node.id, node]));
  const parents = new Map(profile.nodes.flatMap(({ id, children }) => (children ?? []).map((c) => [c, id] as const)));
  const stage = (id: number | undefined): string => {
    for (let at = id; at !== undefined; at = parents.get(at)) {
      const found = stageOf.get(nodes.get(at)!.callFrame.functionName);
      if (found !== undefined) return found;
    }
    return "other";
  };
  const idle = new Set(["(idle)", "(program)"]);
  const spent = new Map<string, number>([...stages.map(([name]) => [name, 0] as const), ["other", 0]]);
  (profile.samples ?? []).forEach((id, k) => {
    if (idle.has(nodes.get(id)!.callFrame.functionName)) return;
    const name = stage(id);
    spent.set(name, spent.get(name)! + (profile.timeDeltas![k] ?? 0) / 1e6);
  });
  return spent;
}
