import { createTheme, type MantineColorsTuple } from "@mantine/core";

/** The one warm accent: hot copper. Shade 7 on paper and shade 4 on graphite both pass 4.5:1 with their text. */
const ember: MantineColorsTuple = [
  "#fdf1e7",
  "#f8dfca",
  "#f0bf98",
  "#e9a673",
  "#e5975a",
  "#cf7230",
  "#b85d1f",
  "#96460f",
  "#7c3b10",
  "#5e2c0b",
];

/** Warm greys for the paper side. */
const gray: MantineColorsTuple = [
  "#fbf9f4",
  "#f4f0e7",
  "#eae4d7",
  "#ddd6c7",
  "#c9c1b0",
  "#a39a88",
  "#6e675a",
  "#565046",
  "#3b3731",
  "#25221e",
];

/** Graphite. */
const dark: MantineColorsTuple = [
  "#e9e5dd",
  "#cfcac1",
  "#b0aba2",
  "#8d8981",
  "#4a4e52",
  "#3a3e42",
  "#282b2e",
  "#1d1f21",
  "#161819",
  "#0f1011",
];

export const theme = createTheme({
  primaryColor: "ember",
  primaryShade: { light: 7, dark: 4 },
  autoContrast: true,
  luminanceThreshold: 0.36,
  colors: { ember, gray, dark },
  white: "#fffdf8",
  black: "#25221e",
  defaultRadius: "sm",
  fontFamily: "'Source Sans 3', 'Segoe UI', 'DejaVu Sans', system-ui, sans-serif",
  headings: { fontFamily: "Georgia, 'DejaVu Serif', 'Times New Roman', serif", fontWeight: "500" },
  fontSizes: { xs: "0.78rem", sm: "0.88rem", md: "0.97rem", lg: "1.1rem", xl: "1.3rem" },
  cursorType: "pointer",
  respectReducedMotion: true,
});
