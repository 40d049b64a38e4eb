import type { PartEnquiry, Triage } from "#terms";

/** Layer groups and contents that make a trial indispensable whatever the physics say. */
export function triage(part: PartEnquiry): Triage {
  if (part.mixture.length === 0) {
    return {
      verdict: "declined",
      reasons: [`${part.material} is out of scope: only layers on metal are computed and tried here.`],
    };
  }
  const reasons: string[] = [];
  const { acceptance } = part;
  for (const unknown of part.unknowns) reasons.push(`Unknown: ${unknown}.`);
  if (part.lead === "unknown" && mayHold(part, "lead"))
    reasons.push("The coating may hold lead: test before any of it is stripped.");
  if (part.lead === "yes")
    reasons.push("The coating holds lead: specialist work with its own rules for fume, waste and health surveillance.");
  if (part.chromate === "unknown" && mayHold(part, "chromate"))
    reasons.push("The primer may hold chromate: test before any of it is stripped.");
  if (part.chromate === "yes")
    reasons.push("The primer holds chromate: specialist work with its own rules for fume and waste.");
  const stays = part.mixture.some((m) => m.stack.layers.some((l) => l.mustStay));
  if (stays) reasons.push("A layer has to stay: its own temperature limit decides, and only a trial shows it.");
  if (acceptance.tests.length > 0)
    reasons.push(
      `${acceptance.tests.length} acceptance test(s) that no prediction can answer: they are measured on the coupons.`,
    );
  if (part.faces.some((f) => f.kind === "concave" || f.kind === "hole"))
    reasons.push("Some faces are hard to reach; reach is judged per set-up.");
  const thick = part.mixture.some(
    (m) => m.stack.layers.reduce((sum, l) => sum + (l.mustStay ? 0 : l.thickness.value), 0) > 400e-6,
  );
  if (thick) reasons.push("More than 0.4 mm of layer: usually slow work for a laser.");
  const needed = part.unknowns.length > 0 || stays || thick || part.lead !== "no" || part.chromate !== "no";
  if (reasons.length === 0) reasons.push("Known layers on a metal of the library, plain acceptance.");
  return { verdict: needed ? "trial needed" : "likely", reasons };
}

function mayHold(part: PartEnquiry, substance: "lead" | "chromate"): boolean {
  return part.mixture.some((m) => m.stack.layers.some((l) => l.kind.mayHold.includes(substance)));
}
