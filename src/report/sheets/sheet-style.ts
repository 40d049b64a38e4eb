import { graphiteTheme, paperTheme, themeVariables } from "#drawing";

/** Screen and print, light and dark; nothing is fetched. A blank is a line to write on, wherever it stands. */
export const sheetStyle = `
:root { color-scheme: light dark; ${themeVariables(paperTheme)} }
@media (prefers-color-scheme: dark) { :root { ${themeVariables(graphiteTheme)} } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 15px/1.45 "DejaVu Sans", Verdana, "Segoe UI", sans-serif; font-variant-numeric: tabular-nums; }
main, header, footer { max-width: 60rem; margin: 0 auto; padding: 0 1.25rem; }
header { padding-top: 1.5rem; border-bottom: 2px solid var(--accent); padding-bottom: .75rem; }
h1 { font-size: 1.5rem; line-height: 1.25; margin: 0 0 .25rem; } h2 { font-size: 1.05rem; margin: 1.2rem 0 .3rem; }
.quiet, caption, dt, .note { color: var(--muted); }
.mark { display: inline-block; border: 1px solid var(--accent); color: var(--accent); font-weight: bold; padding: 0 .5em; border-radius: 3px; margin-right: .5em; }
.flow { columns: 2 22rem; column-gap: 1.5rem; } .flow .box, .flow li { break-inside: avoid; } .flow h2 { break-after: avoid; }
.row { display: grid; gap: 0 1.5rem; } .row > div { min-width: 0; }
dl { display: grid; grid-template-columns: minmax(7rem, 40%) 1fr; gap: .15rem .8rem; margin: .3rem 0; }
dd { margin: 0; overflow-wrap: anywhere; } .head { grid-template-columns: repeat(auto-fit, minmax(8rem, 1fr)); margin-top: .5rem; }
.head div { min-width: 0; } .head dd { font-weight: bold; }
.strip { display: flex; flex-wrap: wrap; justify-content: space-between; gap: .2rem 1.2rem; border: 1px solid var(--line); border-radius: 4px; padding: .4rem .8rem; } .strip dd { font-weight: bold; font-size: 1.05em; }
.signs { border: 0; padding: 0; } .signs > div { flex: 1 1 12rem; } .signs dd { padding-top: 1.5rem; } .signs .note { display: block; font-weight: normal; }
p { margin: .3rem 0; } ul { margin: .2rem 0; padding-left: 1.1rem; } ul.ticks { list-style: none; padding-left: 0; }
ul.ticks li { padding-left: 1.5em; text-indent: -1.5em; } li, td, p { overflow-wrap: anywhere; } th { hyphens: auto; overflow-wrap: break-word; }
.box { border: 1px solid var(--accent); border-radius: 4px; padding: .4rem .8rem; margin: .6rem 0; } .box > strong { color: var(--accent); }
.banner { border-left: 5px solid var(--line); background: var(--panel); padding: .4rem .8rem; margin: .6rem 0; } .banner.warn { border-left-color: var(--accent); }
.banner strong { font-size: 1.1rem; }
.table { overflow-x: auto; } th, td { min-width: 2.6em; } .run-sheet :is(main, header, footer) { max-width: 84rem; } td:last-child { min-width: 8em; } th:not(.right) { min-width: 4.2em; } table { border-collapse: collapse; width: 100%; font-size: .9em; margin: .4rem 0; } caption { text-align: left; }
th, td { text-align: left; vertical-align: top; padding: .3rem .4rem; border: 1px solid var(--faint); } .right { text-align: right; }
th { color: var(--muted); } .blank { display: inline-block; min-width: 2.5em; width: 70%; border-bottom: 1px solid var(--ink); }
figure { margin: .5rem 0; } figure svg { width: 100%; max-width: 24rem; height: auto; }
footer { margin-top: 1.5rem; margin-bottom: 1.5rem; color: var(--muted); font-size: .85em; }
@media (max-width: 40rem) { .row { grid-template-columns: 1fr !important; } }
@media print {
  :root { color-scheme: light; ${themeVariables({ ...paperTheme, paper: "#ffffff" })} }
  body { font-size: 7.8pt; line-height: 1.3; } h1 { font-size: 1.5em; } h2 { font-size: 1.1em; margin-top: .6em; } .flow { columns: 2; } main, header, footer { max-width: none; padding-left: 0; padding-right: 0; }
  h2, caption { break-after: avoid; } .box, .banner, figure, tr { break-inside: avoid; } figure svg { max-width: 62mm; } .table { overflow: visible; }
}
`;
