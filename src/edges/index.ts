export { EDGE_SPAN, type PatchAt, patchEdges, type PatchEdges } from "./patch-edges.ts";
export { type Ray, type RayGroups, rayGroups, type RaySlopes } from "./ray.ts";
export { edgesOf, type RaySource, solveRay } from "./solve-ray.ts";
export { chooseRays, LEVEL_LOWEST, type RayLook } from "./choose-rays.ts";
