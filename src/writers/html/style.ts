/**
 * The look of the pages: a drawing sheet in one ink on one paper. Lines say by weight and dashes what they are;
 * colours say nothing.
 */
export const PAGE_STYLE = `
:root {
  --paper: #fbf8ef;
  --desk: #e9e4d6;
  --ink: #1c2730;
  --faint: #525960;
  color-scheme: light dark;
}
@media (prefers-color-scheme: dark) {
  :root { --paper: #161c20; --desk: #0d1114; --ink: #e4e2d8; --faint: #98a0a4; }
}
* { box-sizing: border-box; }
body {
  margin: 0;
  background: var(--desk);
  color: var(--ink);
  font: 15px/1.45 system-ui, sans-serif;
}
.skip { position: absolute; left: -100vw; }
.skip:focus { left: 8px; top: 8px; background: var(--paper); padding: 4px 8px; }
header, main, footer { max-width: 1500px; margin: 0 auto; padding: 0 20px; }
header { padding-top: 18px; display: flex; flex-wrap: wrap; gap: 8px 28px; align-items: end; }
h1 { font-size: 26px; font-weight: 600; letter-spacing: 0.01em; margin: 0; overflow-wrap: anywhere; }
h2 { font-size: 12px; font-weight: 600; letter-spacing: 0.09em; text-transform: uppercase; margin: 0 0 8px; }
p { margin: 0 0 8px; max-width: 80ch; }
a { color: inherit; text-underline-offset: 3px; }
.doc { letter-spacing: 0.09em; text-transform: uppercase; font-size: 12px; color: var(--faint); margin: 0; }
.tools { margin-left: auto; display: flex; gap: 16px; align-items: center; }
fieldset { border: 0; margin: 0; padding: 0; display: flex; gap: 12px; align-items: center; }
legend { float: left; padding: 0; margin-right: 12px; }
button, select {
  font: inherit;
  color: var(--ink);
  background: var(--paper);
  border: 1px solid var(--ink);
  border-radius: 0;
  padding: 3px 10px;
  min-height: 30px;
}
button { cursor: pointer; }
input { accent-color: var(--ink); }
button:hover { text-decoration: underline; text-underline-offset: 3px; }
:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; }
.head { padding-top: 10px; }
.cautions { border-left: 6px double var(--ink); padding: 2px 0 2px 14px; margin: 4px 0 14px; }
.cautions ul { margin: 0; padding-left: 18px; columns: 3 380px; column-gap: 40px; font-size: 13px; }
.cautions li { break-inside: avoid; padding-bottom: 3px; }
#news { background: var(--paper); border: 1px solid var(--ink); border-left-width: 5px; padding: 6px 12px; margin: 10px 0; }
#news[data-state=wrong], #news[data-state=lost] { border-width: 3px; border-left-width: 14px; }
#news pre { margin: 6px 0 0; font: 14px/1.45 ui-monospace, monospace; white-space: pre-wrap; overflow-wrap: anywhere; }
#news pre:empty { display: none; }
.work { display: grid; grid-template-columns: minmax(230px, 300px) minmax(0, 1fr); gap: 20px; align-items: start; padding-bottom: 30px; }
#programs { list-style: none; margin: 0; padding: 0; border-top: 1px solid var(--ink); }
#programs li { border-bottom: 1px solid var(--ink); }
#programs button {
  display: grid;
  grid-template-columns: 26px 1fr;
  width: 100%;
  text-align: left;
  border: 0;
  border-left: 5px solid transparent;
  background: none;
  padding: 8px 8px 9px;
}
#programs button:hover { text-decoration: none; }
#programs button:hover .name { text-decoration: underline; text-underline-offset: 3px; }
#programs button[aria-current] { border-left-color: var(--ink); background: var(--paper); }
#programs .count { font-variant-numeric: tabular-nums; color: var(--faint); }
#programs .name { font-weight: 600; overflow-wrap: anywhere; }
#programs small { display: block; grid-column: 2; color: var(--faint); overflow-wrap: anywhere; }
#programs .failed { color: var(--ink); font-weight: 700; text-decoration: underline double; }
.sheet { background: var(--paper); border: 1px solid var(--ink); padding: 7px; }
.frame { border: 2.5px solid var(--ink); position: relative; }
.frame h2 { position: absolute; margin: 1px; padding: 6px 10px; background: var(--paper); }
canvas { display: block; width: 100%; touch-action: none; cursor: crosshair; }
#plan { height: 300px; }
#section { height: 260px; }
#side { height: 170px; cursor: auto; touch-action: auto; }
.pointer, .strip { display: flex; flex-wrap: wrap; gap: 4px 14px; align-items: center; padding: 6px 10px; }
.pointer { border-bottom: 1px solid var(--ink); }
.frame .strip { border-top: 1px solid var(--ink); }
.strip fieldset { flex-wrap: wrap; gap: 4px 10px; }
.strip input[type=range] { flex: 1 1 200px; accent-color: var(--ink); }
.strip input:not([type]), .strip input[inputmode] { font: inherit; color: var(--ink); background: var(--paper); border: 1px solid var(--ink); padding: 3px 6px; width: 9ch; }
.strip input[aria-invalid=true] { border-style: double; border-width: 4px; }
.strip output { font: 14px/1.3 ui-monospace, monospace; min-width: 30ch; }
.frame .place { margin: 0; border-width: 1px 0 0; }
.place.four { grid-template-columns: repeat(4, minmax(0, 1fr)); }
.two { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 20px; margin-bottom: 14px; }
.two .strip { padding: 0 0 8px; }
.two select { max-width: 26ch; }
.facts { margin: 0 0 8px; }
.facts div { display: grid; grid-template-columns: minmax(0, 2fr) minmax(0, 3fr); gap: 10px; border-bottom: 1px solid var(--ink); padding: 3px 0; }
.facts dt { color: var(--faint); }
.facts dd { margin: 0; overflow-wrap: anywhere; }
#feature-lines { display: flex; flex-wrap: wrap; gap: 6px; align-items: center; }
#feature-lines p { margin: 0; }
.scroll { overflow-x: auto; margin-bottom: 14px; }
table { border-collapse: collapse; font-size: 14px; font-variant-numeric: tabular-nums; }
th, td { text-align: left; border-bottom: 1px solid var(--ink); padding: 3px 12px 3px 0; white-space: nowrap; }
th { font-size: 12px; }
#program-cautions { margin: 0 0 14px; padding-left: 18px; columns: 3 220px; font-size: 14px; }
.below { border-top: 1px solid var(--ink); position: relative; }
.below:first-child { border-top: 0; }
.zoom { position: absolute; right: 8px; top: 8px; display: flex; gap: 4px; }
.title-block { display: grid; grid-template-columns: repeat(12, 1fr); margin: 0; border-top: 2.5px solid var(--ink); }
.title-block div { grid-column: span 3; padding: 4px 10px 6px; border-right: 1px solid var(--ink); border-bottom: 1px solid var(--ink); min-width: 0; }
.title-block .wide { grid-column: span 6; }
.title-block .whole { grid-column: span 12; border-bottom: 0; }
.title-block dt, .place dt { font-size: 11px; color: var(--faint); }
.title-block dd, .place dd { margin: 0; overflow-wrap: anywhere; }
.key { display: flex; flex-wrap: wrap; gap: 2px 20px; font-size: 12px; padding: 6px 10px; border-top: 1px solid var(--ink); }
.key span { display: inline-flex; align-items: center; gap: 7px; }
.key svg { width: 46px; height: 10px; stroke: currentColor; fill: none; }
.steps { display: flex; flex-wrap: wrap; gap: 8px 10px; align-items: center; padding: 12px 0 8px; }
.steps input { flex: 1 1 260px; accent-color: var(--ink); min-width: 120px; }
#play { min-width: 76px; }
.place { display: grid; grid-template-columns: repeat(8, minmax(0, 1fr)); margin: 0 0 12px; border: 1px solid var(--ink); background: var(--paper); }
.place div { padding: 4px 10px 6px; border-right: 1px solid var(--ink); }
.place div:last-child { border-right: 0; }
.place dd { overflow-wrap: anywhere; font: 15px/1.3 ui-monospace, monospace; font-variant-numeric: tabular-nums; }
#written {
  margin: 0;
  padding: 6px 10px 6px 72px;
  background: var(--paper);
  border: 1px solid var(--ink);
  font: 14px/1.55 ui-monospace, monospace;
  overflow-x: auto;
}
#written li { white-space: pre; padding-left: 8px; cursor: pointer; }
#written li::marker { color: var(--faint); font-size: 12px; }
#written li[aria-current] { font-weight: 700; border-left: 5px solid var(--ink); padding-left: 3px; }
.hint { color: var(--faint); font-size: 13px; margin-top: 8px; }
#print-sheets { display: none; }
ol.path { margin: 0; padding: 0; list-style: none; counter-reset: step; }
ol.path > li { counter-increment: step; position: relative; padding: 0 0 16px 52px; }
ol.path > li::before {
  content: counter(step);
  position: absolute;
  left: 0;
  width: 34px;
  height: 34px;
  border: 1.5px solid var(--ink);
  border-radius: 50%;
  text-align: center;
  line-height: 31px;
  background: var(--paper);
}
ol.path h2 { font-size: 16px; letter-spacing: 0; text-transform: none; padding-top: 5px; }
ol.path ul { margin: 0; padding-left: 18px; }
.page { background: var(--paper); border: 1px solid var(--ink); padding: 7px; margin: 14px 0 30px; }
.page > .inner { border: 2.5px solid var(--ink); padding: 22px 26px; }
.picture svg { display: block; width: 100%; height: auto; max-height: 300px; margin-bottom: 20px; }
@media (max-width: 900px) {
  .work, .two { grid-template-columns: minmax(0, 1fr); }
  .title-block div { grid-column: span 6; }
  .title-block .wide { grid-column: span 12; }
  .place, .place.four { grid-template-columns: repeat(2, minmax(0, 1fr)); }
}
@media print {
  :root { --paper: #fff; --desk: #fff; --ink: #000; --faint: #333; }
  #news, .tools, .steps, .place, #written, .sheet, .hint, .skip, .work h2, .two, #worst, #program-cautions { display: none; }
  .work { display: block; }
  header, main, footer { max-width: none; padding: 0; }
  #print-sheets { display: block; }
  #print-sheets figure { margin: 0; border: 2px solid #000; padding: 6px; break-before: page; break-inside: avoid; }
  #print-sheets canvas { height: auto; cursor: auto; }
  #print-sheets figcaption { border-top: 1px solid #000; padding: 6px 2px; font-size: 12px; overflow-wrap: anywhere; }
  #programs li { break-inside: avoid; }
  .page { border: 0; }
}
`.replace(/^ +/gm, '');
