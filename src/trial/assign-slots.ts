import type { RandomStream } from "#numerics";
import type { PlannedPatch } from "#terms";
import type { PlanCandidate } from "./candidates.ts";
import type { PatchSize, Slot } from "./layout-coupon.ts";
import { orderApart } from "./run-order.ts";
import { shareOverCoupons } from "./share-coupons.ts";

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

export interface Assignment {
  readonly patches: readonly PlannedPatch[];
  /** largest correlation of a control with the coupon, 0 to 1; 0 on one coupon */
  readonly couponCorrelation: number;
  /** patches that touch the one burned before them */
  readonly touching: number;
}

/**
 * Gives every item a place, a number and a turn. References stand first (untouched) and last (cleaned) on each
 * coupon; burned patches are shared over the coupons so that the coupon does not pass for an effect, a repeat on
 * another coupon than its original; places are random; run order is random within each coupon, coupon after coupon,
 * with neighbours seldom one after the other. Numbers follow the slots. Lengths m.
 * Needs as many items as there are slots beside the references.
 */
export function assignSlots(
  items: readonly BurnItem[],
  slots: readonly Slot[],
  patch: PatchSize,
  gap: number,
  references: References,
  random: RandomStream,
): Assignment {
  const roles = slots.map((slot, i) => roleOf(slots, i, slot.coupon, references));
  const coupons = [...new Set(slots.map((slot) => slot.coupon))];
  const free = coupons.map((coupon) =>
    slots.map((_, i) => i).filter((i) => roles[i] === "burn" && slots[i]!.coupon === coupon),
  );
  const shared = shareOverCoupons(
    items.map(({ candidate, repeats }) => ({ point: candidate.point, repeats })),
    free.map((places) => places.length),
    random,
  );
  const itemAt = new Map<number, number>();
  const slotOf = new Map<number, number>();
  const runOrder = new Map<number, number>();
  let touching = 0;
  free.forEach((places, c) => {
    const mine = random.shuffle(items.map((_, i) => i).filter((i) => shared.coupon[i] === c));
    places.forEach((slot, k) => {
      itemAt.set(slot, mine[k]!);
      slotOf.set(mine[k]!, slot);
    });
    const run = orderApart(
      places.map((slot) => slots[slot]!),
      patch.width + gap,
      patch.height + gap,
      random,
    );
    for (const k of run.order) runOrder.set(places[k]!, runOrder.size + 1);
    touching += run.touching;
  });
  const patches = slots.map((slot, i): PlannedPatch => {
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
  return { patches, couponCorrelation: shared.correlation, touching };
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
