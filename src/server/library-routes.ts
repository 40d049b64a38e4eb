import type { FastifyInstance } from "fastify";
import { layerKinds, metals, setups } from "#library";

/** What the predictions rest on, as the library keeps it. */
export function libraryRoutes(api: FastifyInstance): void {
  api.get(
    "/library",
    { schema: { summary: "Metals, layer kinds and laser set-ups with sources and spreads" } as object },
    () => ({ metals, layerKinds, setups }),
  );
}
