import { graphiteTheme, paperTheme, themeVariables } from "#drawing";

/** One style sheet for screen and print, light and dark; no font or picture is fetched. */
export const reportStyle = `
:root { color-scheme: light dark; ${themeVariables(paperTheme)} }
@media (prefers-color-scheme: dark) { :root { ${themeVariables(graphiteTheme)} } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 15px/1.5 "DejaVu Sans", Verdana, "Segoe UI", sans-serif; font-variant-numeric: tabular-nums; }
main, header.report { max-width: 52rem; margin: 0 auto; padding: 0 1.25rem; }
header.report { padding-top: 2rem; border-bottom: 2px solid var(--accent); padding-bottom: .75rem; }
h1 { font-size: 1.6rem; line-height: 1.25; margin: 0 0 .25rem; }
h2 { font-size: 1.25rem; margin: 2.2rem 0 .6rem; }
h3 { font-size: 1.05rem; margin: 1.6rem 0 .5rem; }
.quiet, .note { color: var(--muted); }
.note { font-size: .88em; }
.invented { display: inline-block; border: 1px solid var(--line); padding: 0 .5em; border-radius: 3px; }
dl { display: grid; grid-template-columns: minmax(9rem, max-content) 1fr; gap: .2rem 1rem; margin: .5rem 0; }
dt { color: var(--muted); } dd { margin: 0; overflow-wrap: anywhere; }
.answer { border: 1px solid var(--line); border-left: 5px solid var(--accent); border-radius: 4px; padding: .8rem 1rem; margin: .8rem 0; background: var(--panel); }
.answer.none, .answer.declined { border-left-color: var(--line); }
.answer h3 { margin: 0; } .answer .headline { font-size: 1.15rem; font-weight: bold; margin: .1rem 0; }
.cautions { border: 1px solid var(--accent); border-radius: 4px; padding: .5rem .9rem; margin: .7rem 0; }
.cautions strong { color: var(--accent); } .cautions ul { margin: .2rem 0; padding-left: 1.1rem; }
.setting { border: 1px solid var(--line); border-radius: 4px; padding: .7rem 1rem; margin: .7rem 0; }
.table { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .9em; margin: .6rem 0; }
caption { text-align: left; color: var(--muted); padding-bottom: .2rem; }
th, td { text-align: left; vertical-align: top; padding: .3rem .6rem .3rem 0; border-bottom: 1px solid var(--faint); overflow-wrap: break-word; }
thead th { border-bottom: 1px solid var(--line); } .right { text-align: right; }
figure { margin: 1rem 0; } figure svg { width: 100%; height: auto; max-width: 46rem; }
figure.stack svg { max-width: 30rem; }
figcaption { color: var(--muted); font-size: .9em; }
footer { max-width: 52rem; margin: 2rem auto; padding: 0 1.25rem; color: var(--muted); font-size: .88em; }
@media (max-width: 34rem) { dl { grid-template-columns: 1fr; gap: 0; } dd { margin-bottom: .4rem; } }
@media print {
  @page { size: A4; margin: 18mm 18mm 20mm; }
  :root { color-scheme: light; ${themeVariables({ ...paperTheme, paper: "#ffffff" })} }
  body { font-size: 9.5pt; } main, header.report { max-width: none; padding-left: 0; padding-right: 0; }
  h2, h3, caption { break-after: avoid; } figure, .answer, .setting, .cautions, tr { break-inside: avoid; }
  .details { break-before: page; } .table { overflow: visible; }
}
`;
