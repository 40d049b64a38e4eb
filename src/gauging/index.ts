export { cohenKappa, type Kappa, type KappaWeights } from "./kappa.ts";
