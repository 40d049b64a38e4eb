/** Colours of every drawing. Values are CSS colours, so that a page may hand in variables. */
export interface Theme {
  readonly paper: string;
  readonly panel: string;
  readonly ink: string;
  readonly muted: string;
  readonly line: string;
  readonly faint: string;
  /** the one warm accent: the gap, the recommended point */
  readonly accent: string;
  readonly accentSoft: string;
  /** damage: told apart by hatching too */
  readonly damage: string;
  /** still covered by the layer */
  readonly residue: string;
  readonly metal: string;
}

export const paperTheme: Theme = {
  paper: "#fbfaf6",
  panel: "#f3f1ea",
  ink: "#26282b",
  muted: "#5b5f63",
  line: "#b9b6ac",
  faint: "#e4e1d7",
  accent: "#b4541a",
  accentSoft: "#f0d9c6",
  damage: "#3d3a46",
  residue: "#2f6d80",
  metal: "#c6c9cc",
};

/** For paper: the same, on the white of the sheet. */
export const printTheme: Theme = { ...paperTheme, paper: "#ffffff" };

export const graphiteTheme: Theme = {
  paper: "#1f2123",
  panel: "#282b2e",
  ink: "#eceae4",
  muted: "#aeb0b1",
  line: "#595d61",
  faint: "#363a3d",
  accent: "#e8935a",
  accentSoft: "#54402f",
  damage: "#c9c3d6",
  residue: "#7cc0d4",
  metal: "#6d7276",
};

/** The same names as CSS variables, for pictures that follow the page around them. */
export function themeVariables(theme: Theme): string {
  return Object.entries(theme)
    .map(([name, value]) => `--${name}: ${value};`)
    .join(" ");
}

/** A theme whose colours are looked up in the page; outside of a page the paper colours hold. */
export const pageTheme: Theme = Object.fromEntries(
  Object.entries(paperTheme).map(([name, value]) => [name, `var(--${name}, ${value})`]),
) as unknown as Theme;
