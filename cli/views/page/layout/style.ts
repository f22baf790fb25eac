import { PALETTE } from './palette.js';

const TEXT = `
* { box-sizing: border-box; }
html { background: var(--paper); color: var(--ink); -webkit-text-size-adjust: 100%; }
body { margin: 0; font: 16px/1.5 ui-sans-serif, system-ui, -apple-system, "Segoe UI", Roboto, "Noto Sans", "DejaVu Sans", sans-serif; }
main, header.top, footer { max-width: 84rem; margin: 0 auto; padding: 0 clamp(0.9rem, 3vw, 2.5rem); }
header.top { padding-top: clamp(1.2rem, 4vw, 3rem); }
.overline { margin: 0; color: var(--quiet); font-size: 0.95rem; overflow-wrap: anywhere; }
h1 { font-family: ui-serif, Charter, "Iowan Old Style", Georgia, "DejaVu Serif", serif; font-weight: 500; font-size: clamp(1.4rem, 1.1rem + 1.3vw, 2.05rem); line-height: 1.24; margin: 0.5rem 0 1.1rem; max-width: 34em; text-wrap: pretty; overflow-wrap: anywhere; }
h2 { font-size: 1.3rem; line-height: 1.3; margin: 2.6rem 0 0.8rem; }
h3 { font-size: 1.02rem; line-height: 1.35; margin: 0 0 0.5rem; overflow-wrap: anywhere; }
p { margin: 0 0 0.7rem; max-width: 46em; overflow-wrap: anywhere; }
a { color: var(--accent); }
:focus-visible { outline: 3px solid var(--focus); outline-offset: 2px; border-radius: 3px; }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
.facts { display: flex; flex-wrap: wrap; gap: 0.4rem 2.2rem; margin: 0; padding: 0.8rem 0 0; border-top: 2px solid var(--ink); }
.facts div { min-width: 7rem; }
.facts dt { color: var(--quiet); font-size: 0.86rem; }
.facts dd { margin: 0; font-weight: 600; font-variant-numeric: tabular-nums; overflow-wrap: anywhere; }
.key { color: var(--quiet); font-size: 0.9rem; max-width: 60em; }
.tables + .key { margin-top: 0.7rem; }
footer { color: var(--quiet); font-size: 0.9rem; padding-top: 2rem; padding-bottom: 3rem; }
`;

const TABLES = `
.scroll { overflow-x: auto; position: relative; min-width: 0; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; font-size: 0.95rem; min-width: 100%; }
caption { text-align: left; font-weight: 600; padding: 0 0 0.35rem; }
details caption { font-weight: 400; color: var(--quiet); }
th, td { text-align: left; padding: 0.34rem 0.9rem 0.34rem 0; border-bottom: 1px solid var(--line); white-space: nowrap; vertical-align: baseline; }
thead th { font-weight: 500; color: var(--quiet); font-size: 0.86rem; border-bottom: 1px solid var(--ink); vertical-align: bottom; }
tbody th { font-weight: 600; }
td.words { white-space: normal; min-width: 9rem; }
@media (max-width: 47.99rem) {
  td.words { white-space: nowrap; }
  table.reps th:first-child { position: sticky; left: 0; background: var(--paper); z-index: 1; }
  table.reps tr.current th:first-child { background: color-mix(in srgb, var(--cursor) 14%, var(--paper)); }
}
tr.plan th, tr.plan td { font-weight: 400; font-style: italic; color: var(--quiet); }
tr.current th, tr.current td { background: color-mix(in srgb, var(--cursor) 14%, transparent); }
.tables { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 46rem), 1fr)); gap: 1.4rem 2.5rem; align-items: start; }
.uncertainty { color: var(--quiet); font-size: 0.86em; }
.verdict { font-size: 0.88em; white-space: nowrap; }
.verdict.met { color: var(--quiet); }
.verdict.short, .verdict.long { font-weight: 650; }
.verdict.short { color: var(--problem); }
.verdict.long { color: var(--contracted-hold); }
.verdict.unclear { color: var(--quiet); }
button, select { font: inherit; color: var(--ink); background: var(--card); border: 1px solid var(--quiet); border-radius: 7px; padding: 0.32rem 0.7rem; min-height: 2.2rem; cursor: pointer; }
button:hover { border-color: var(--accent); color: var(--accent); }
button.jump { min-width: 2.2rem; padding: 0.1rem 0.5rem; min-height: 1.8rem; font-weight: 600; }
details { margin-top: 0.4rem; }
summary { cursor: pointer; color: var(--accent); font-size: 0.92rem; padding: 0.25rem 0; }
`;

const PICTURES = `
.pictures { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 26rem), 1fr)); grid-auto-flow: dense; gap: 1.2rem; align-items: start; }
.picture { margin: 0; padding: 1rem 1.1rem; background: var(--card); border: 1px solid var(--line); border-radius: 12px; min-width: 0; }
.picture.wide, .pictures > .wide { grid-column: 1 / -1; }
.charts { display: flex; flex-wrap: wrap; gap: 0.5rem 1.6rem; }
.chart { flex: 1 1 16rem; min-width: 0; max-width: 25rem; }
.wide .chart { flex-basis: 13.5rem; max-width: 20rem; } .whole .chart { max-width: 60rem; }
.chart svg { display: block; width: 100%; height: auto; overflow: visible; }
main > .findings:first-child, main > p:first-child { margin-top: 1.2rem; }
.large { margin-bottom: 1.6rem; } .large .chart { max-width: 46rem; }
.thirds { grid-template-columns: repeat(auto-fit, minmax(min(100%, 21rem), 1fr)); }
figcaption { font-size: 0.92rem; color: var(--quiet); margin-top: 0.5rem; max-width: 60em; }
svg text { font-variant-numeric: tabular-nums; white-space: pre; }
.findings { list-style: none; padding: 0; margin: 0; display: grid; gap: 0.7rem; max-width: 60rem; }
.findings li { background: var(--card); border: 1px solid var(--line); border-left: 5px solid var(--quiet); border-radius: 8px; padding: 0.7rem 1rem; overflow-wrap: anywhere; }
.findings li.warning { border-left-color: var(--warning); border-left-style: dashed; }
.findings li.problem { border-left-color: var(--problem); border-left-width: 8px; }
.findings.amended { margin-top: 1rem; }
.findings strong { display: block; font-size: 0.86rem; color: var(--quiet); font-weight: 600; }
.findings .remedy { margin: 0.25rem 0 0; }
.method { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(100%, 24rem), 1fr)); gap: 0.2rem 2.5rem; }
`;

const PLAYER = `
#player { background: var(--card); border: 1px solid var(--line); border-radius: 12px; padding: 1rem; }
.beside { display: grid; gap: 1rem; grid-template-columns: minmax(0, 1fr); }
.stage { position: relative; background: var(--stage); border-radius: 8px; overflow: hidden; margin: 0 auto; width: 100%; }
.stage video, .stage canvas { position: absolute; inset: 0; width: 100%; height: 100%; display: block; object-fit: contain; }
.stage canvas { pointer-events: none; }
.controls { display: flex; flex-wrap: wrap; gap: 0.5rem; align-items: center; margin-top: 0.6rem; }
.controls input[type="range"] { flex: 1 1 12rem; min-width: 8rem; accent-color: var(--accent); height: 1.6rem; }
.controls label { display: inline-flex; gap: 0.35rem; align-items: center; }
#player-play { min-width: 4.6rem; font-weight: 650; }
#player-clock { font-variant-numeric: tabular-nums; color: var(--quiet); }
#player-words { font-size: 1.12rem; font-weight: 600; min-height: 1.6em; margin: 0.6rem 0 0; font-variant-numeric: tabular-nums; }
.curves { min-width: 0; display: grid; gap: 0.9rem; align-content: start; }
.curve-scroll { overflow-x: auto; }
.curves > div { min-width: 0; }
.curve-holder { position: relative; width: max-content; min-width: 100%; cursor: crosshair; }
.curve-holder svg { display: block; max-width: none; height: auto; overflow: visible; }
.cursor { position: absolute; top: 2%; bottom: 8%; width: 2px; margin-left: -1px; background: var(--cursor); pointer-events: none; }
.cursor-dot { position: absolute; width: 12px; height: 12px; margin: -6px 0 0 -6px; border-radius: 50%; background: var(--cursor); border: 2px solid var(--card); pointer-events: none; }
.legend { display: flex; flex-wrap: wrap; gap: 0.3rem 1.2rem; list-style: none; margin: 0; padding: 0; font-size: 0.9rem; }
.legend svg { width: 28px; height: 14px; vertical-align: -2px; margin-right: 0.4rem; }
kbd { font: 600 0.86em ui-monospace, "DejaVu Sans Mono", monospace; border: 1px solid var(--line); border-bottom-width: 2px; border-radius: 4px; padding: 0 0.35em; }
.keys { display: grid; grid-template-columns: max-content 1fr; gap: 0.2rem 0.9rem; margin: 0.4rem 0 0; font-size: 0.92rem; }
.keys dd { margin: 0; }
@media (max-width: 61.99rem) {
  .film-side { position: sticky; top: 0; z-index: 2; background: var(--card); padding-bottom: 0.4rem; }
  .stage { max-height: 42vh; width: min(100%, calc(42vh * var(--shape))); }
}
@media (min-width: 62rem) { .beside { grid-template-columns: minmax(18rem, 27rem) minmax(0, 1fr); align-items: start; } }
@media (min-width: 62rem) { .beside.landscape { grid-template-columns: minmax(22rem, 38%) minmax(0, 1fr); } }
`;

const PRINT = `
@media print {
  @page { size: A4; margin: 9mm 11mm; }
  html { font-size: 9.5pt; } body { font-size: 1rem; line-height: 1.35; }
  main, header.top, footer { max-width: none; padding: 0; }
  footer { display: none; }
  h1 { font-size: 15pt; margin: 2mm 0 3mm; } h2 { font-size: 11pt; margin: 2.5mm 0 1mm; break-after: avoid; } h3 { font-size: 9.5pt; }
  .film-side, .controls, #player-words, .cursor, .cursor-dot, details, .screen-only { display: none !important; }
  #player, .picture { border: none; padding: 0; break-inside: avoid; background: none; }
  .beside { display: block; }
  .scroll, .curve-scroll { overflow: visible; }
  .curve-holder { width: 100%; } .curve-holder svg { width: 100%; height: auto; }
  .tables { grid-template-columns: 1fr; gap: 2mm; } table { font-size: 7.8pt; line-height: 1.2; } caption { padding: 0; } thead th { font-size: 7pt; }
  th, td { padding: 0.35mm 3mm 0.35mm 0; } td.words { white-space: nowrap; }
  button.jump { border: none; padding: 0; min-width: 0; min-height: 0; background: none; color: inherit; }
  .pictures { grid-template-columns: repeat(3, minmax(0, 1fr)); gap: 2.5mm 5mm; } .pictures > .wide { grid-column: 1 / -1; }
  .charts { flex-wrap: nowrap; gap: 2mm; } .pictures > .whole { grid-column: auto; } .chart { max-width: 52mm; } .wide .chart { max-width: 46mm; } .whole .chart { max-width: none; }
  .tables + .key { margin-top: 0.6mm; }
  figcaption, .key, .legend, .method p, main li { font-size: 7.4pt; line-height: 1.25; } figcaption { margin-top: 0.5mm; max-width: none; }
  .curve-holder svg { max-height: 46mm; } .curves { gap: 1mm 4mm; } .curves:has(> div ~ div) { grid-template-columns: 1fr 1fr; } .curves > :not(div) { grid-column: 1 / -1; } p { margin-bottom: 1mm; max-width: none; } .facts { padding-top: 1.5mm; gap: 0.5mm 8mm; }
  ul { margin: 0; } .findings { gap: 1.2mm 4mm; grid-template-columns: 1fr 1fr; max-width: none; align-items: start; }
  .findings li, .findings.amended { margin-top: 1rem; }
.findings strong { font-size: 7.4pt; } .method { grid-template-columns: 1fr 1fr; }
  .findings li { padding: 1mm 2mm; break-inside: avoid; } footer { padding: 2mm 0 0; font-size: 8pt; }
  * { print-color-adjust: exact; -webkit-print-color-adjust: exact; }
}
`;

export const PAGE_STYLE = PALETTE + TEXT + TABLES + PICTURES + PLAYER + PRINT;
