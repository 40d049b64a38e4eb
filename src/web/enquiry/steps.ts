import { later } from "../app/later.ts";

/** What each step shows; its script comes with the first visit, or ahead of it. */
export const steps = {
  part: later(() => import("../steps/part/part-step.tsx").then((m) => m.PartStep)),
  lasers: later(() => import("../steps/lasers/lasers-step.tsx").then((m) => m.LasersStep)),
  setting: later(() => import("../steps/setting/setting-step.tsx").then((m) => m.SettingStep)),
  trial: later(() => import("../steps/trial/trial-step.tsx").then((m) => m.TrialStep)),
  results: later(() => import("../steps/results/results-step.tsx").then((m) => m.ResultsStep)),
  window: later(() => import("../steps/window/window-step.tsx").then((m) => m.WindowStep)),
  comparison: later(() => import("../steps/comparison/comparison-step.tsx").then((m) => m.ComparisonStep)),
  economy: later(() => import("../steps/economy/economy-step.tsx").then((m) => m.EconomyStep)),
  report: later(() => import("../steps/report/report-step.tsx").then((m) => m.ReportStep)),
} as const;
