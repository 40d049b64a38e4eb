/** What stands behind a number: equation, in words, and where it is from. In English. */
export const behind = {
  open: (name: string) => `${name}: what stands behind it`,
  inputs: "With",
  source: "From",
  numbers: {
    spot: {
      equation: "d(z) = d₀·√(1 + (z/z_R)²)",
      words: "Diameter at the work, defocus included: 1/e² for a Gaussian beam, the flat one for a top-hat.",
      source: "ISO 11146-1, beam propagation",
    },
    meanPower: {
      equation: "pulsed: min(P, E_max·f); continuous: P·level·duty",
      words: "What falls on the part on the mean.",
      source: "definition",
    },
    pulseEnergy: {
      equation: "E = min(P/f, E_max)",
      words: "Below the cut-in frequency the source gives no more than its largest pulse.",
      source: "definition; E_max of the set-up",
    },
    fluence: {
      equation: "F₀ = 2·E/(π·w²), top-hat E/(π·w²)",
      words: "In the middle of one pulse. The energy over the 1/e² area is half of it for a Gaussian beam.",
      source: "ISO 11146-1 beam profiles",
    },
    irradiance: {
      equation: "I₀ = 2·P_peak/(π·w²); P_peak = 0.94·E/τ",
      words: "In the middle of the spot while the light is on.",
      source: "ISO 11146-1 beam profiles; Gaussian pulse in time",
    },
    dwell: {
      equation: "t = d/v",
      words: "Time for which a point lies under the moving spot.",
      source: "definition",
    },
    pulseOverlap: {
      equation: "1 − v/(f·d)",
      words: "Share of a spot's diameter that the next pulse covers again.",
      source: "definition",
    },
    lineOverlap: {
      equation: "1 − spacing/d",
      words: "Share of a spot's diameter that the next line covers again.",
      source: "definition",
    },
    lineEnergy: { equation: "P/v", words: "Energy per length of one line.", source: "definition" },
    dose: {
      equation: "P/(v·spacing)",
      words: "Energy per area of one pass, whatever the spot.",
      source: "definition",
    },
    events: {
      equation: "pulses: passes·f·d²/(v·spacing); lines: passes·d/spacing",
      words: "Counted over the d × d square.",
      source: "definition",
    },
    both: {
      equation: "(versions clean and undamaged + ½)/(versions + 1)",
      words:
        "Every uncertain property is drawn within its spread; each draw is one version of the physics. One more of each kind than was seen: a few dozen versions never make a certainty.",
      source: "own; properties and spreads from the library",
    },
    residue: {
      equation: "share of the area with more than the residue thickness left",
      words:
        "The law of one pulse or pass (decomposed from above, blown or stressed off the metal) stamped over the raster, point by point; adhesion differs from place to place.",
      source: "own derivation; checked in docs/validation.md",
    },
    peak: {
      equation: "T = T_before + rise(fluence on bare metal)",
      words:
        "Hottest place of the metal in any pulse or pass, properties over temperature and latent heats included; at most what it boils at.",
      source: "heat equation, Carslaw and Jaeger 1959; own column solver, checked in docs/validation.md",
    },
    melt: {
      equation: "Stefan front of the hottest place",
      words: "Depth that was liquid at the hottest place.",
      source: "enthalpy method; own column solver",
    },
    condition: {
      equation: "limits on melt depth, molten share and oxide thickness",
      words: "0 unchanged, 1 discoloured, 2 micro-melted, 3 melted.",
      source: "own convention, docs/nomenclature.md",
    },
    start: {
      equation: "superposition of all pulses and lines before, over the trial patch",
      words: "Temperature of the surface just before the hottest pulse or line.",
      source: "Carslaw and Jaeger 1959, sources on a plate",
    },
    rate: {
      equation: "area/(lines·(length/v + turn)·passes + field changes)",
      words: "Turn-rounds at the scanner's acceleration and changes of field included; without handling.",
      source: "kinematics at constant acceleration; field change common practice, no source",
    },
  },
} as const;
