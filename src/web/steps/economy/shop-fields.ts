import { exampleShop } from "#contract";
import { words } from "../../words/index.ts";

/** One field of the form. `path` is the place in the published file, parts joined by dots. */
export interface ShopField {
  readonly path: string;
  readonly label: string;
  readonly unit: string;
  /** the invented example figure that counts while the field is empty; null where empty means that nothing is known */
  readonly example: number | null;
  readonly kind: "number" | "text";
}

export interface ShopGroup {
  readonly title: string;
  readonly help: string;
  readonly fields: readonly ShopField[];
}

const say = words.economy.shop;

/** The form, with money in the currency that is entered. */
export function shopGroups(currency: string): readonly ShopGroup[] {
  const { inputs, times } = exampleShop();
  const number = (path: keyof typeof say.fields, unit: string, example: number | null): ShopField => ({
    path,
    label: say.fields[path],
    unit: unit.replace("money", currency),
    example,
    kind: "number",
  });
  return [
    {
      ...say.groups.machine,
      fields: [
        number("hoursPerYear_h", "h", inputs.hoursPerYear),
        number("years", "years", inputs.years),
        number("interest_percent", "%", 100 * inputs.interest),
        number("salvage_percent", "%", 100 * inputs.salvageShare),
      ],
    },
    {
      ...say.groups.running,
      fields: [
        number("labour_per_h", "money/h", inputs.labour),
        number("consumables_per_h", "money/h", inputs.consumables),
        number("filters_per_h", "money/h", inputs.filters),
        number("waste_per_h", "money/h", inputs.waste),
        number("waste_per_m2", "money/m²", 0),
        number("energy_per_kWh", "money/kWh", inputs.energyPrice),
        number("auxiliaryPower_W", "W", inputs.auxiliaryPower),
      ],
    },
    {
      ...say.groups.times,
      fields: [
        number("handling_s", "s", times.handling),
        number("preparation_s", "s", times.preparation),
        number("step_s", "s", times.step),
        number("programming_s", "s", times.programming),
      ],
    },
    {
      ...say.groups.other,
      fields: [
        { path: "otherMethod.name", label: say.fields.otherName, unit: "", example: null, kind: "text" },
        { ...number("otherPerArea", "money/m²", null), path: "otherMethod.cost_per_m2" },
        { ...number("otherPerYear", "money/year", null), path: "otherMethod.cost_per_year" },
        number("areaPerYear_m2", "m²", null),
      ],
    },
  ];
}

/** Figures that may have a range of their own: name in the file, unit, example range. */
export function shopRanges(
  currency: string,
): readonly { readonly name: string; readonly label: string; readonly unit: string; readonly example: string }[] {
  const { ranges } = exampleShop();
  const row = (name: keyof typeof say.ranges, key: keyof typeof ranges, unit: string) => {
    const range = ranges[key];
    return {
      name,
      label: say.ranges[name],
      unit: unit.replace("money", currency),
      example: range === undefined ? "" : say.exampleRange(String(range.low), String(range.high)),
    };
  };
  return [
    row("jobTime", "jobTime", "×"),
    row("hoursPerYear_h", "hoursPerYear", "h"),
    row("labour_per_h", "labour", "money/h"),
    row("energy_per_kWh", "energyPrice", "money/kWh"),
    row("consumables_per_h", "consumables", "money/h"),
    row("filters_per_h", "filters", "money/h"),
    row("waste_per_h", "waste", "money/h"),
  ];
}
