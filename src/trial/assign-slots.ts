import type { RandomStream } from "#numerics";
import type { PlannedPatch } from "#terms";
import type { PlanCandidate } from "./candidates.ts";
import type { PatchSize, Slot } from "./layout-coupon.ts";

/** A patch to burn before it has a place; `repeats` is the index of the item that it repeats, or null. */
export interface BurnItem {
  readonly candidate: PlanCandidate;
  readonly repeats: number | null;
}

export interface References {
  /** patches left as they are, per coupon */
  readonly untouched: number;
  /** patches cleaned to bare metal by other means, per coupon */
  readonly cleaned: number;
}

/**
 * Gives every item a place, a number and a turn. References stand first (untouched) and last (cleaned) on each
 * coupon; burned patches are shuffled over the rest, a repeat on another coupon than its original where there is one;
 * run order is random within each coupon, coupon after coupon. Numbers follow the slots. Lengths m.
 * Needs as many items as there are slots beside the references.
 */
export function assignSlots(
  items: readonly BurnItem[],
  slots: readonly Slot[],
  patch: PatchSize,
  references: References,
  random: RandomStream,
): PlannedPatch[] {
  const roles = slots.map((slot, i) => roleOf(slots, i, slot.coupon, references));
  const free = slots.map((_, i) => i).filter((i) => roles[i] === "burn");
  const order = random.shuffle(items.map((_, i) => i));
  separateRepeats(
    order,
    items,
    free.map((i) => slots[i]!.coupon),
  );
  const itemAt = new Map<number, number>();
  const slotOf = new Map<number, number>();
  order.forEach((item, k) => {
    itemAt.set(free[k]!, item);
    slotOf.set(item, free[k]!);
  });
  const runOrder = new Map<number, number>();
  for (const coupon of new Set(slots.map((slot) => slot.coupon))) {
    for (const i of random.shuffle(free.filter((k) => slots[k]!.coupon === coupon))) runOrder.set(i, runOrder.size + 1);
  }
  return slots.map((slot, i) => {
    const item = itemAt.has(i) ? items[itemAt.get(i)!]! : null;
    const role = roles[i]!;
    return {
      patch: i + 1,
      coupon: slot.coupon,
      x: slot.x,
      y: slot.y,
      width: patch.width,
      height: patch.height,
      role: role !== "burn" ? role : item!.repeats === null ? "test" : "replicate",
      setting: item?.candidate.setting ?? null,
      runOrder: runOrder.get(i) ?? 0,
      replicateOf: item === null || item.repeats === null ? null : slotOf.get(item.repeats)! + 1,
      predictedClean: item?.candidate.score?.clean ?? null,
      predictedUndamaged: item?.candidate.score?.undamaged ?? null,
    };
  });
}

function roleOf(
  slots: readonly Slot[],
  index: number,
  coupon: number,
  references: References,
): "untouched" | "cleaned-reference" | "burn" {
  const first = slots.findIndex((slot) => slot.coupon === coupon);
  const last = slots.findLastIndex((slot) => slot.coupon === coupon);
  if (index - first < references.untouched) return "untouched";
  return last - index < references.cleaned ? "cleaned-reference" : "burn";
}

/** Swaps a repeat that sits on its original's coupon with a first burn from another coupon, where that helps. */
function separateRepeats(order: number[], items: readonly BurnItem[], coupons: readonly number[]): void {
  for (let k = 0; k < order.length; k++) {
    const original = items[order[k]!]!.repeats;
    if (original === null) continue;
    const home = coupons[order.indexOf(original)]!;
    if (coupons[k] !== home) continue;
    const repeated = new Set(items.map((item) => item.repeats));
    const other = order.findIndex(
      (item, j) => coupons[j] !== home && items[item]!.repeats === null && !repeated.has(item),
    );
    if (other >= 0) [order[k], order[other]] = [order[other]!, order[k]!];
  }
}
