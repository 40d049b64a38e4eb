/** Look of the page of routes; no file and no script beside it. */
export const docsStyle = `
:root { color-scheme: light dark; --paper: #f7f4ee; --sheet: #fffdf8; --ink: #23201b; --soft: #5f584c; --line: #d9d2c4; --accent: #9a4a12; }
@media (prefers-color-scheme: dark) { :root { --paper: #1b1d1f; --sheet: #232629; --ink: #ece8df; --soft: #b3ab9c; --line: #3b3f43; --accent: #f0a868; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 16px/1.5 system-ui, sans-serif; }
main { max-width: 62rem; margin: 0 auto; padding: 1.5rem 1rem 4rem; }
h1 { font-size: 1.5rem; } h2 { font-size: 1.15rem; margin: 2rem 0 .5rem; } h3 { margin: .8rem 0 .3rem; font-size: .95rem; }
a { color: var(--accent); } nav { display: flex; flex-wrap: wrap; gap: .25rem 1rem; }
nav a { padding: .6rem 0; }
details { background: var(--sheet); border: 1px solid var(--line); border-radius: 6px; margin: .4rem 0; padding: 0 .9rem; }
details[open] { padding-bottom: .9rem; }
summary { cursor: pointer; padding: .65rem 0; overflow-wrap: anywhere; }
summary span { color: var(--soft); margin-left: .7rem; }
td code { white-space: nowrap; }
code, pre { font: .88rem/1.45 ui-monospace, monospace; overflow-wrap: anywhere; }
pre { overflow-x: auto; white-space: pre-wrap; background: var(--paper); border-radius: 4px; padding: .6rem; margin: .3rem 0; }
.wide { overflow-x: auto; } table { border-collapse: collapse; } td { padding: .2rem .8rem .2rem 0; vertical-align: top; }
ul { margin: .2rem 0; padding-left: 1.2rem; color: var(--soft); }
`;
