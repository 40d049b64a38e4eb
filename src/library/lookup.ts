import type { LaserSetup, LayerKind, Metal } from "#terms";
import { findById } from "./find-by-id.ts";
import type { FumeEntry } from "./fume.ts";
import { fumeEntries, layerKinds, metals, setups } from "./own-files.ts";

/** @throws InvalidInput when the id is unknown, with the known ids */
export const metal = (id: string): Metal => findById(metals, id, "metal");

/** @throws InvalidInput when the id is unknown, with the known ids */
export const layerKind = (id: string): LayerKind => findById(layerKinds, id, "layer kind");

/** @throws InvalidInput when the id is unknown, with the known ids */
export const setup = (id: string): LaserSetup => findById(setups, id, "laser");

/** @throws InvalidInput when the id is unknown, with the known ids */
export const fume = (id: string): FumeEntry => findById(fumeEntries, id, "fume entry");
