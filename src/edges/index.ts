export { EDGE_SPAN, type PatchAt, patchEdges, type PatchEdges } from "./patch-edges.ts";
