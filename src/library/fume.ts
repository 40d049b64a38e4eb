/** An occupational exposure limit to show beside a flagged substance. */
export interface FumeLimit {
  readonly substance: string;
  /** whose limit, for example "EU" */
  readonly authority: string;
  readonly value: number;
  readonly unit: "mg/m³" | "ppm";
  readonly kind: "8 h mean" | "ceiling" | "15 min mean";
  readonly source: string;
  /** date or year of the edition */
  readonly date: string;
  readonly fromMemory: boolean;
  readonly note?: string;
}

/** What may come off a layer or metal. Substances are flagged; a concentration is never predicted. */
export interface FumeEntry {
  readonly id: string;
  readonly name: string;
  readonly substances: readonly string[];
  readonly limits: readonly FumeLimit[];
  /** True where work stops and a specialist takes over. */
  readonly stop: boolean;
  readonly note: string;
  readonly source: string;
  readonly fromMemory: boolean;
}
