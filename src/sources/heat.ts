import { entry, type Source } from "./source.ts";

/** Conduction, melting, moving sources, warming from pulse to pulse. */
export const heatSources: readonly Source[] = [
  entry(
    "carslaw-jaeger-1959",
    "handbook",
    "Carslaw H.S., Jaeger J.C., Conduction of Heat in Solids, 2nd ed., Oxford University Press, 1959",
  ),
  entry("ready-1971", "handbook", "Ready J.F., Effects of High-Power Laser Radiation, Academic Press, 1971"),
  entry("bauerle-2011", "handbook", "Bäuerle D., Laser Processing and Chemistry, 4th ed., Springer, 2011"),
  entry(
    "cline-anthony-1977",
    "paper",
    "Cline H.E., Anthony T.R., Heat treating and melting material with a scanning laser or electron beam, J. Appl. Phys. 48 (1977) 3895",
  ),
  entry(
    "eagar-tsai-1983",
    "paper",
    "Eagar T.W., Tsai N.-S., Temperature fields produced by traveling distributed heat sources, Weld. J. 62 (1983) 346s",
  ),
  entry(
    "aws-welding-handbook-1",
    "handbook",
    "American Welding Society, Welding Handbook, vol. 1, chapter on heat flow in welding",
    "worked example from memory, its arithmetic reproduced",
  ),
  entry(
    "weber-2014",
    "paper",
    "Weber R. et al., Heat accumulation during pulsed laser materials processing, Opt. Express 22 (2014) 11312",
  ),
  entry(
    "timoshenko-goodier",
    "handbook",
    "Timoshenko S.P., Goodier J.N., Theory of Elasticity, 3rd ed., McGraw-Hill, 1970",
  ),
  entry(
    "vollertsen-1994",
    "paper",
    "Vollertsen F., An analytical model for laser bending, Lasers Eng. 2 (1994) 261",
    "formula from memory",
  ),
  entry(
    "chen-yuen-2003",
    "paper",
    "Chen R.Y., Yuen W.Y.D., Review of the high-temperature oxidation of iron and carbon steels in air or oxygen, Oxid. Met. 59 (2003) 433",
    "parabolic constant from memory",
  ),
  entry(
    "stoliarov-2009",
    "paper",
    "Stoliarov S.I. et al., Prediction of the burning rates of non-charring polymers, Combust. Flame 156 (2009) 1068",
    "acrylic kinetics from memory",
  ),
];
