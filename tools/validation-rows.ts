/** How a row may be used: what counts, what was in sight when priors were chosen, what cannot be asked. */
export type Standing = "counted" | "used for priors" | "not testable";

/** A published experiment as it was read. */
export interface PublishedRow {
  readonly id: string;
  readonly laser: string;
  readonly target: string;
  readonly finding: string;
  readonly unknown: string;
  readonly use: string;
  readonly standing: Standing;
  /** source id in `#sources` */
  readonly source: string;
}

/** Published cleaning experiments, read in summary only; what their authors state and this list lacks stands under "unknown". */
export const publishedRows: readonly PublishedRow[] = [
  {
    id: "E1",
    laser: "ns 532 nm, 5 and 100 ns, up to 10 kHz",
    target: "paint",
    finding: "best yield 0.3 mm³/J at 1.5 J/cm² and 10 kHz (4.5 µm per pulse); threshold falls with repetition rate",
    unknown: "spot, layer kind, thickness; wavelength outside the library",
    use: "order of magnitude only; and in sight twice: the depth per pulse when the absorption of dark layers was chosen, the trend of the threshold when heat was let stay in the layer (docs/decisions/0006)",
    standing: "used for priors",
    source: "brygo-2006",
  },
  {
    id: "E2",
    laser: "ns pulsed",
    target: "blue and red polyurethane on an aluminium alloy",
    finding: "1.8 J/cm² leaves paint, 3.2 and 8.0 J/cm² remove it; blue vaporises, red is thrown off",
    unknown: "wavelength, pulse width, spot, thickness, mean or peak fluence",
    use: "in sight when the temperature of the interface and the absorptance were chosen",
    standing: "used for priors",
    source: "zhang-2022",
  },
  {
    id: "E3",
    laser: "pulsed",
    target: "multilayer aircraft paint on aluminium",
    finding: "5.09 J/cm² at 700 mm/s strips clean, metal undamaged",
    unknown: "wavelength, pulse width, spot, thickness, mean or peak fluence",
    use: "not testable until width and mean or peak are known",
    standing: "not testable",
    source: "li-wq-2023",
  },
  {
    id: "E4",
    laser: "ns pulsed",
    target: "paint",
    finding: "removal threshold about 1.73 J/cm²",
    unknown: "layer kind, pulse width, spot, thickness",
    use: "in sight when the temperature of the interface and the absorptance were chosen",
    standing: "used for priors",
    source: "li-y-2023",
  },
  {
    id: "E5",
    laser: "continuous fibre up to 500 W, 1 s dwell",
    target: "7075 aluminium: (a) grey epoxy primer; (b) with white epoxy varnish; (c) with red alkyd",
    finding: "thresholds (a) 177.74, (b) 192.89, (c) 147.44 W/mm²",
    unknown: "spot, thicknesses, criterion of the threshold",
    use: "order of the three thresholds only; in sight when the recession of long events and what follows it were mended",
    standing: "used for priors",
    source: "sun-2021",
  },
  {
    id: "E6",
    laser: "continuous",
    target: "epoxy on 6061 aluminium",
    finding: "removed depth linear in power density; char slows removal; metal melts",
    unknown: "power, spot, dwell, thickness",
    use: "trends; in sight when the recession of long events and what follows it were mended",
    standing: "used for priors",
    source: "li-y-2024",
  },
  {
    id: "E7",
    laser: "1064 nm, 8 ns / 120 ns / 40-120 µs",
    target: "natural rust on iron",
    finding: "8 ns ablates to metal; 120 ns micro-melts; 40-120 µs converts rust to magnetite",
    unknown: "fluence, spot, rust thickness",
    use: "order of regimes; the constants of conversion and the 2 µs in which rust sheds its stress were chosen with it in sight",
    standing: "used for priors",
    source: "osticioli-siano-2013",
  },
  {
    id: "E8",
    laser: "high-energy ns pulsed",
    target: "lead paint over 20-100 µm mill scale on bridge steel",
    finding: "only the top 1 µm or so of the scale melts, the steel does not",
    unknown: "fluence, spot, width, thickness of the paint",
    use: "order of the melt depth in magnetite at fluences that remove the paint",
    standing: "counted",
    source: "moffat-2024",
  },
  {
    id: "E9",
    laser: "ns fibre 1064 nm, 25 ns, 100 kHz, 25 W, 450 mm/s, 4 or 8 passes",
    target: "epoxy on EH36 steel",
    finding: "complete removal, no damage",
    unknown: "spot, line spacing, thickness, colour",
    use: "outcome over a stated range of spots",
    standing: "counted",
    source: "tourunen-2025",
  },
  {
    id: "E10",
    laser: "Q-switched fibre",
    target: "shop primer and epoxy on steel",
    finding: "overlap 20 and 50 % leaves oxide, 70 % clears it",
    unknown: "everything but the overlap; abstracts only",
    use: "trend only",
    standing: "counted",
    source: "kim-jd-abstracts",
  },
  {
    id: "E11",
    laser: "none (pull-off)",
    target: "acrylic polyurethane on aluminium",
    finding: "stress of adhesion failure: local 6.3, 6.5, 7.6 MPa; complete 8.9, 9.4, 8.7 MPa",
    unknown: "test method",
    use: "prior of the lift-off stress",
    standing: "used for priors",
    source: "liu-g-2023",
  },
  {
    id: "E12",
    laser: "ns pulsed",
    target: "acrylic on 7075 aluminium",
    finding: "24 J/cm², 2000 mm/s, 50 % overlap removes the layer",
    unknown: "spot, width, thickness, colour, mean or peak fluence",
    use: "upper bound of the fluence that is needed",
    standing: "counted",
    source: "miao-2022",
  },
];
