import type { Delivery, PartEnquiry, SiteLimits } from "#terms";
import { formatQuantity } from "#units";

/** Where one way of working ends and another begins (common practice, no source). */
export const deliveryRules = {
  /** equal parts from which a robot's program is shared by enough of them */
  manyParts: 20,
  /** equal parts below which programming is lost time */
  fewParts: 5,
  /** fields that a scanner does without much moving */
  fewFields: 4,
  /** fields beyond which seams and moves rule the work of a scanner */
  manyFields: 25,
} as const;

/** 3 suits, 2 works, 1 works poorly. */
export interface Fit {
  readonly delivery: Delivery;
  readonly fit: 1 | 2 | 3;
  readonly why: string;
}

export interface FitQuestion {
  readonly part: Pick<PartEnquiry, "area" | "count" | "faces">;
  readonly site: Pick<SiteLimits, "enclosed">;
  /** scan fields over one part */
  readonly fields: number;
}

const parts = (count: number): string => (count === 1 ? "one part" : `${count} equal parts`);
const fieldWords = (n: number): string => (n === 1 ? "one scan field" : `${n} scan fields`);
/** Faces that need the head at several angles. */
const isVaried = (faces: FitQuestion["part"]["faces"]): boolean => new Set(faces.map((f) => f.kind)).size > 1;

function scanner({ part, fields }: FitQuestion): Fit {
  const delivery = "scanner";
  if (isVaried(part.faces))
    return {
      delivery,
      fit: 1,
      why: "A fixed scanner sees one side: faces of several kinds need the part turned for each of them.",
    };
  if (fields <= deliveryRules.fewFields)
    return {
      delivery,
      fit: 3,
      why: `The face fits into ${fieldWords(fields)}: a fixed scanner needs no program and holds distance and pattern.`,
    };
  if (fields <= deliveryRules.manyFields)
    return { delivery, fit: 2, why: `A scanner needs ${fieldWords(fields)} here, with a seam and a move for each.` };
  return { delivery, fit: 1, why: `A scanner would need ${fieldWords(fields)}: moves and seams would rule the work.` };
}

function robot({ part }: FitQuestion): Fit {
  const delivery = "robot";
  if (part.count >= deliveryRules.manyParts)
    return {
      delivery,
      fit: 3,
      why: `${part.count} equal parts share one program: a robot holds distance and speed and treats all of them alike.`,
    };
  if (part.count >= deliveryRules.fewParts)
    return { delivery, fit: 2, why: `A robot's program is shared by only ${parts(part.count)}.` };
  return {
    delivery,
    fit: 1,
    why: `Programming and proving a robot's path takes hours and would serve only ${parts(part.count)}.`,
  };
}

function hand({ part, site, fields }: FitQuestion): Fit {
  const delivery = "hand";
  if (site.enclosed === true)
    return {
      delivery,
      fit: 1,
      why: "Hand work puts a person inside the enclosure while the beam is on.",
    };
  if (part.count >= deliveryRules.manyParts)
    return {
      delivery,
      fit: 1,
      why: `By hand the same strokes come ${part.count} times: it tires, and parts come out unlike each other.`,
    };
  if (fields > deliveryRules.manyFields)
    return {
      delivery,
      fit: 3,
      why: `${part.count === 1 ? "One large piece" : `Only ${part.count} large pieces`} of ${formatQuantity(part.area, "m2", 2)}: by hand the head goes to the work and nothing is programmed.`,
    };
  if (isVaried(part.faces))
    return {
      delivery,
      fit: 3,
      why: `Faces of several kinds on ${parts(part.count)}: a hand follows them without a program.`,
    };
  return {
    delivery,
    fit: 2,
    why: `By hand it can be done, with more spread in distance and speed than a machine has.`,
  };
}

/** How each delivery fits, steadiest first. */
export function deliveryFits(question: FitQuestion): Fit[] {
  return [scanner(question), robot(question), hand(question)];
}
