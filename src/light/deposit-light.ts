import type { Ratio } from "#terms";
import { invalid } from "#units";
import { checkLightStack, type LightStack } from "./light-stack.ts";
import { createLightWorkspace, type LightWorkspace, writeInterface, writeSlice } from "./slices.ts";

/** Where the light that is not absorbed in the layers goes; shares of the incident light. */
export interface LightBalance {
  readonly reflected: Ratio;
  readonly metalAbsorbed: Ratio;
}

/** Lengths closer than this share of the stack are the same: edges and layer sums differ in the last bits. */
const SAME = 1e-9;

/** Cuts cells at layer boundaries and writes the slices and inner interfaces from the top down; returns their number. */
function slice(stack: LightStack, edges: Float64Array, total: number, w: LightWorkspace): number {
  const cells = edges.length - 1;
  let count = 0;
  let top = 0;
  let cell = 0;
  let above = false;
  for (const layer of stack.layers) {
    if (layer.thickness <= 0) continue;
    const bottom = top + layer.thickness;
    if (above && layer.frontReflectance) writeInterface(w, count++, layer.frontReflectance);
    above = true;
    for (; cell < cells; cell++) {
      const from = Math.max(edges[cell]!, top);
      const to = Math.min(edges[cell + 1]!, bottom);
      if (to - from > SAME * total || (to > from && edges[cell + 1]! <= bottom))
        writeSlice(w, count++, cell, layer, to - from);
      if (edges[cell + 1]! > bottom + SAME * total) break;
    }
    top = bottom;
  }
  return count;
}

/** Collimated light: reflectances added up from the metal, then the beam followed down; returns what leaves the top. */
function followBeam(w: LightWorkspace, count: number, metalReflectance: number, surface: number): number {
  const { mirror, straight, below, beamDown, beamUp } = w;
  below[count] = metalReflectance;
  for (let i = count - 1; i >= 0; i--) {
    const under = below[i + 1]!;
    below[i] = mirror[i]! + (straight[i]! * straight[i]! * under) / (1 - mirror[i]! * under);
  }
  beamDown[0] = (1 - surface) / (1 - surface * below[0]!);
  for (let i = 0; i <= count; i++) {
    beamUp[i] = below[i]! * beamDown[i]!;
    if (i < count) beamDown[i + 1] = (straight[i]! * beamDown[i]!) / (1 - mirror[i]! * below[i + 1]!);
  }
  return surface + (1 - surface) * beamUp[0]!;
}

/** Diffuse light: reflectance and glow of everything below each edge, added up from the metal. */
function addUp(w: LightWorkspace, count: number, metalReflectance: number): void {
  const { reflect, pass, scatterBack, scatterOn, below, glow, beamDown, beamUp } = w;
  below[count] = metalReflectance;
  glow[count] = 0;
  for (let i = count - 1; i >= 0; i--) {
    const R = reflect[i]!;
    const T = pass[i]!;
    const back = scatterBack[i]! * beamDown[i]! + scatterOn[i]! * beamUp[i + 1]!;
    const on = scatterOn[i]! * beamDown[i]! + scatterBack[i]! * beamUp[i + 1]!;
    const bounce = T / (1 - R * below[i + 1]!);
    glow[i] = back + bounce * (glow[i + 1]! + below[i + 1]! * on);
    below[i] = R + bounce * T * below[i + 1]!;
  }
}

function requireCells(edges: Float64Array, out: Float64Array, total: number): void {
  const cells = edges.length - 1;
  if (cells < 1) invalid("cell edges", edges.length, "", "at least two for a stack with layers");
  if (out.length < cells) invalid("cells", out.length, "", `room for ${cells} results`);
  for (let i = 0; i < cells; i++)
    if (!(edges[i + 1]! >= edges[i]!)) invalid("cell edge", edges[i + 1], "m", "not above the one before");
  const covers = Math.abs(edges[0]!) <= SAME * total && Math.abs(edges[cells]! - total) <= SAME * total;
  if (!covers)
    invalid("cell edges", `${edges[0]} to ${edges[cells]}`, "m", `must run from 0 to the ${total} m of the layers`);
}

/**
 * Where the light goes in a stack of layers on metal: collimated light falls in, is absorbed (K) and scattered (4S/3,
 * half each way) into diffuse two-flux light (Kubelka-Munk K, S); the outer surface throws back `externalReflectance`
 * of collimated light from either side and `internalReflectance` of diffuse light from inside; the metal reflects
 * 1 − A, collimated as collimated and diffuse as diffuse. Solved slice by slice by adding (closed form in each slice,
 * no error from the cell size), from flux differences at the cell edges.
 * Collimated light is absorbed with the full K, not the K/2 of some texts, so that S = 0 over black is Beer-Lambert with K.
 * @param stack layers from the top, shares and 1/m; a stack without layers is bare metal
 * @param edges m, cell edges ascending from 0 (top) to the total thickness; cells may cross layer boundaries
 * @param out receives the share of the incident light absorbed in each cell
 * @param workspace scratch arrays to use again; made anew when not given
 * @returns shares reflected and absorbed in the metal; with `out` they add up to 1
 * Throws InvalidInput on values outside 0 to 1, negative coefficients or edges that do not match the layers.
 * Sources: Kubelka & Munk, Z. techn. Phys. 12 (1931) 593; four-flux form after Maheu, Letoulouzan & Gouesbet,
 * Appl. Opt. 23 (1984) 3353 (from memory); S = ¾ of the reduced scattering: Mudgett & Richards, Appl. Opt. 10 (1971) 1485 (from memory).
 */
export function depositLight(
  stack: LightStack,
  edges: Float64Array,
  out: Float64Array,
  workspace?: LightWorkspace,
): LightBalance {
  checkLightStack(stack);
  const metalReflectance = 1 - stack.metalAbsorptance;
  let total = 0;
  for (const layer of stack.layers) total += layer.thickness;
  out.fill(0);
  if (total === 0) return { reflected: metalReflectance, metalAbsorbed: stack.metalAbsorptance };
  requireCells(edges, out, total);
  const needed = edges.length + 2 * stack.layers.length + 1;
  const w = workspace ?? createLightWorkspace(edges.length - 1, stack.layers.length);
  if (w.capacity < needed) invalid("workspace", w.capacity, "slices", `needs ${needed}`);
  const count = slice(stack, edges, total, w);
  const mirrored = followBeam(w, count, metalReflectance, stack.externalReflectance);
  addUp(w, count, metalReflectance);
  const { reflect, pass, scatterBack, scatterOn, below, glow, beamDown, beamUp } = w;
  const inside = stack.internalReflectance;
  let down = (inside * glow[0]!) / (1 - inside * below[0]!);
  let up = below[0]! * down + glow[0]!;
  const reflected = mirrored + (1 - inside) * up;
  for (let i = 0; i < count; i++) {
    const entering = beamDown[i]! - beamUp[i]! + down - up;
    const on = scatterOn[i]! * beamDown[i]! + scatterBack[i]! * beamUp[i + 1]!;
    down = (pass[i]! * down + reflect[i]! * glow[i + 1]! + on) / (1 - reflect[i]! * below[i + 1]!);
    up = below[i + 1]! * down + glow[i + 1]!;
    const cell = w.cell[i]!;
    // A slice that absorbs next to nothing may come out below zero by rounding.
    if (cell >= 0) out[cell]! += Math.max(0, entering - (beamDown[i + 1]! - beamUp[i + 1]! + down - up));
  }
  // Behind a black layer nothing arrives, give or take the last bit.
  return { reflected, metalAbsorbed: stack.metalAbsorptance * Math.max(0, beamDown[count]! + down) };
}
