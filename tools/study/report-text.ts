/** Words of the page of the study that do not depend on the run. */

/** Broken into lines of at most 118 columns; further lines of a list item are set in. */
function wrapped(text: string): string[] {
  const indent = text.startsWith("- ") ? "  " : "";
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= 118) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(last === undefined ? word : `${indent}${word}`);
  }
  return lines;
}

export const howMade: readonly string[] = [
  "Everything on this page is simulated. The truths are invented (`src/truth`, which the rooms that plan and judge trials may not import) and of another form than the product's physics: power laws of the thresholds with exponents of their own, coats that are thrown off or eaten away, a spot that is no Gaussian and has a ring around it, a plume that shades, a plate that warms, passes that count less than the first, plates that differ, thickness that scatters from patch to patch, readings with an error of their own, and 2 % of grades that are simply wrong. A truth is anchored at the setting that the prior expects the most robust rate of: there its two edges are those of one version of the product's own prior, give or take 10 %; every other setting follows the laws of the truth. Of every 20 truths of a scenario 14 are left so, 3 are made narrow (0.1 to 0.3 in ln power between the edges at best) and 3 are made so that no setting works.",
  "",
  "Every planner gets the same prior, the same settings to choose from and the same rule for stopping, and none sees the truth. The physics-guided planner burns where the rate is expected to gain most. Full grid, one factor at a time and Latin hypercube judge by the same physics model and differ in where they burn: design points around the setting of most expected robust rate under the prior. The probit burns by the same acquisition and differs in the model. Calibration runs on 1,000 particles in 2 populations here against 1,200 in 4 in the product. The planners beside the physics-guided one may have seen fewer truths, the first ones of the run; what compares two planners is to be read on their own counts.",
].flatMap(wrapped);

export const definitions: readonly string[] = [
  "- True chance: share of 40 production days, with drift of power, spot, speed and thickness, on which a setting is both clean and undamaged. Good: at least 0.95, that is 38 of the 40 days.",
  "- Best rate: that of the fastest candidate that is good. Nothing works: no candidate is good.",
  "- Stopped: of all cases, those that ended with a verdict within 48 patches. Patches: of those that stopped, either verdict.",
  "- Wrong: of the stops that recommended, those whose setting is not good; always so where nothing works. Upper bound: one-sided 95 % (Clopper-Pearson). Chance below 0.8: of the same stops, those far off.",
  "- Good, within 25 %: of the stops where something works, those that recommend a good setting of at least best rate/1.25.",
  '- Nothing works, found: of the truths where nothing works, those with the verdict "nothing". Falsely: of the others.',
  "- Good at 12 and at 24: of the truths where something works, those in which the setting that would be recommended after 12 or 24 patches is good; no recommendation is not good. A trial that stopped before keeps its answer.",
  "- Coverage: edges of a few settings that lie inside their 90 % interval. Edges of one truth hang together, so the interval of the coverage itself is somewhat too narrow. The probit states no edges.",
  "- Bins of stated chance with fewer than 30 settings are shown and not judged.",
].flatMap(wrapped);

export const limits: readonly string[] = [
  "A truth is never farther from the prior at its reference setting than the prior itself allows, and the parts are invented. The figures tell how the method does where the physics is about right at one place and wrong in form elsewhere. Some laws of the truths (warming, the longest useful stay, the time exponent of lines) were set after a look at how far the truths part from the product's edges; the figures lean towards the product by that much. The other way round, spreads of the misfit and the rules of choice and stop were set in some ten rounds on truths 0 to 159 (docs/decisions/0011 and 0012), and four of eight jobs were exchanged for ones with a stronger machine or another metal because what there was cleaned less than 0.1 m²/h; the full run is on truths that none of these rounds saw. They are no measurement on real coupons, and no promise about one.",
].flatMap(wrapped);

export const repeating: readonly string[] = [
  "`npm run study` runs 20 truths of two of the jobs, `npm run study -- --truths 1000 --first 1000 --compare 104` the full study; the edges of the eight jobs are solved first and kept under `out/study-books`. The figures go to `out/study.json`, the single cases to `out/study-cases.json`. `--planners physics-guided,probit` keeps to some planners, `--first 1000` takes other truths, `--threads n` sets the number of threads, `--again` writes the figures and this page anew from the single cases. The same truths give the same figures.",
].flatMap(wrapped);
