import type { LabelledBar, MarkedPatch, SectionLayer, ComparisonRow, MapMark, MapPoint, OutcomeState } from "#drawing";
import type { Sensitivity } from "#cost";
import type { HazardDistances } from "#safety";
import type { Coupon, Trial, WindowMap } from "#terms";

/** How well a recommendation is borne out. */
export type Evidence = "proven" | "tried" | "predicted" | "none" | "declined";

/** A drawing as data; it is drawn by whoever sets the page, in the colours of that page. */
export type Drawing =
  | { readonly kind: "two-edge-bars"; readonly bars: readonly LabelledBar[] }
  | {
      readonly kind: "stack";
      readonly layers: readonly SectionLayer[];
      readonly metal: string;
      readonly metalThickness: string;
    }
  | {
      readonly kind: "coupon";
      readonly trial: Trial;
      readonly coupon: Coupon;
      readonly outcomes: Readonly<Record<number, OutcomeState>>;
    }
  | {
      readonly kind: "graded-coupon";
      readonly trial: string;
      readonly coupon: Coupon;
      readonly patches: readonly MarkedPatch[];
      /** the photograph laid flat, as a data address; null where there is none */
      readonly photo: string | null;
    }
  | {
      readonly kind: "window-map";
      readonly map: WindowMap;
      readonly marks: readonly MapMark[];
      readonly recommended: MapPoint | null;
    }
  | { readonly kind: "hazard-plan"; readonly hazards: HazardDistances }
  | {
      readonly kind: "cost-bars";
      readonly sensitivity: Sensitivity;
      readonly currency: string;
      readonly note: string;
    }
  | { readonly kind: "bars"; readonly rows: readonly ComparisonRow[]; readonly axisName: string };

export interface Fact {
  readonly name: string;
  readonly value: string;
  readonly note?: string;
}

export interface Column {
  readonly name: string;
  readonly align: "left" | "right";
  /** share of the width, any unit */
  readonly share: number;
}

/** A setting that a person may work from; it never stands without cautions. */
export interface SettingBlock {
  readonly kind: "setting";
  readonly title: string;
  readonly rows: readonly Fact[];
  readonly cautions: readonly string[];
}

/** The answer for one part on the first page. */
export interface AnswerBlock {
  readonly kind: "answer";
  readonly part: string;
  readonly evidence: Evidence;
  readonly headline: string;
  readonly evidenceWords: string;
  /** null where nothing is recommended */
  readonly setting: string | null;
  readonly facts: readonly Fact[];
  readonly sentences: readonly string[];
  /** at least one wherever a setting is shown */
  readonly cautions: readonly string[];
}

export interface TableBlock {
  readonly kind: "table";
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  /** cautions that go along when the rows are settings */
  readonly cautions: readonly string[];
}

export type Block =
  | { readonly kind: "text"; readonly words: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  | { readonly kind: "facts"; readonly rows: readonly Fact[] }
  | { readonly kind: "cautions"; readonly items: readonly string[] }
  | { readonly kind: "figure"; readonly id: string; readonly caption: string; readonly drawing: Drawing }
  | TableBlock
  | SettingBlock
  | AnswerBlock;

export interface Section {
  readonly id: string;
  readonly heading: string;
  /** 2 for a chapter, 3 for a part of one */
  readonly level: 2 | 3;
  readonly blocks: readonly Block[];
}

/** A whole report as plain data: the same for the page on the screen and for the paper. */
export interface ReportModel {
  readonly language: "en";
  readonly title: string;
  readonly customer: string;
  readonly enquiryId: string;
  readonly documentId: string;
  readonly revision: string;
  readonly dateText: string;
  readonly approver: string | null;
  readonly invented: boolean;
  readonly modelVersion: string;
  /** the page that a customer reads */
  readonly answer: readonly Section[];
  readonly details: readonly Section[];
}
