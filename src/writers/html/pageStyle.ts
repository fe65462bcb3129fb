/** The look of pages to work down: ruled tables, boxes to tick, lines to write on; one ink, light or dark, and paper. */
export const WORK_STYLE = `
:root { --paper: #fff; --ink: #16202a; --faint: #5b636b; --rule: #9aa1a6; color-scheme: light dark; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #14191d; --ink: #e8e6dd; --faint: #a3aaaf; --rule: #566067; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 1180px; padding: 18px 22px 40px; background: var(--paper); color: var(--ink); font: 15px/1.45 system-ui, sans-serif; }
h1 { font-size: 25px; margin: 0 0 10px; overflow-wrap: anywhere; }
h2 { font-size: 18px; margin: 26px 0 8px; border-top: 2px solid var(--ink); padding-top: 8px; }
h3 { font-size: 15px; margin: 16px 0 6px; }
p { margin: 0 0 8px; max-width: 95ch; overflow-wrap: anywhere; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; margin: 4px 0 12px; font-variant-numeric: tabular-nums; }
caption { text-align: left; color: var(--faint); font-size: 13px; padding-bottom: 3px; }
th, td { border: 1px solid var(--rule); padding: 3px 8px; text-align: left; vertical-align: top; }
th { font-size: 13px; font-weight: 600; vertical-align: bottom; max-width: 130px; }
.n { text-align: right; }
ul { margin: 0 0 8px; padding-left: 22px; }
.ticks { list-style: none; padding-left: 0; }
.ticks li { padding: 2px 0 2px 28px; position: relative; max-width: 95ch; overflow-wrap: anywhere; }
.ticks input { position: absolute; left: 0; top: 3px; }
input[type=checkbox] { width: 17px; height: 17px; margin: 0; accent-color: var(--ink); }
input[type=text] { font: inherit; width: 7.5em; color: var(--ink); background: transparent; border: 0; border-bottom: 1.5px solid var(--ink); border-radius: 0; padding: 0 2px; }
:focus-visible { outline: 3px solid var(--ink); outline-offset: 2px; }
.stop, .caution { border: 1.5px solid var(--ink); border-left-width: 9px; padding: 6px 12px; margin: 6px 0 10px; max-width: 95ch; }
.caution { border-left-style: double; }
.stop strong, .caution strong { margin-right: 6px; }
footer { color: var(--faint); font-size: 13px; margin-top: 26px; border-top: 1px solid var(--rule); padding-top: 6px; overflow-wrap: anywhere; }
@media print {
  :root { --paper: #fff; --ink: #000; --faint: #333; --rule: #666; }
  body { max-width: none; padding: 0; font-size: 11px; }
  h2, h3 { break-after: avoid; }
  tr, .stop, .caution, li { break-inside: avoid; }
  thead { display: table-header-group; }
  .screen { display: none; }
}
`;

/** Hash of that text, for the page's policy (Content Security Policy level 3, hash-source); a test compares the two. */
export const WORK_STYLE_HASH = 'sha256-ztfkWPy2KCSZ/rcliBnyLE5NN7QQPRL584oRMBvhMOg=';
