/** The fixed parts of the preview page: the drawing sheet with its title block, the stepping row and the listing. */

const FIELDS: readonly (readonly [label: string, cell: string])[] = [
  ['Operation', ' data-field="operation"'],
  ['Part', ' data-field="part"'],
  ['Program file', ' data-field="path"'],
  ['Machine', ' data-field="machine"'],
  ['Tool', ' data-field="tool"'],
  ['Width of cut', ' id="cut-width"'],
  ['Work zero', ' data-field="workZero"'],
  ['Stock', ' id="stock-size"'],
  ['Machine time', ' data-field="time"'],
  ['Proof', ' id="proof-word"'],
];

const LINE_KEY: readonly (readonly [name: string, width: number, dashes: string])[] = [
  ["part's edge", 2, ''],
  ['stock before cutting', 0.9, '12 2 1.5 2 1.5 2'],
  ['centre line', 0.9, '12 2 1.5 2'],
  ['rapid', 0.9, '5 4'],
  ['cut: the deeper or stronger, the heavier', 3, ''],
];

/** The sheet: plan, section, title block and the key to its lines. */
export const SHEET = `<section class="sheet" aria-label="Drawing of the program"><div class="frame">
<div class="below">
<h2>Plan from above</h2>
<canvas id="plan" tabindex="0" role="img" aria-describedby="keys"></canvas>
<div class="zoom"><button id="farther" aria-label="Farther off">&#8722;</button><button id="nearer" aria-label="Nearer">+</button><button id="whole">Whole</button></div>
</div>
<div class="below"><h2>Section along x</h2><canvas id="section" role="img"></canvas></div>
<div class="foot">
<div class="below"><h2>Section across y</h2><canvas id="across" role="img"></canvas></div>
<dl class="title-block">
${FIELDS.map(titleCell).join('\n')}
<div><dt>Largest overcut, undercut; limit</dt><dd id="proof-figures"></dd></div>
</dl>
</div>
<div class="key" aria-label="Key to the lines">
${LINE_KEY.map(keyEntry).join('\n')}
</div>
</div></section>`;

/** Stepping through the program, where the tool is, and the written lines. */
export const STEPPING = `<div class="steps">
<button id="play">Play</button>
<label>the whole in <select id="play-time"><option value="10">10 seconds</option><option value="30" selected>30 seconds</option><option value="120">2 minutes</option></select></label>
<button id="line-back" aria-label="Back to the line before">Line back</button>
<input id="step" type="range" min="0" max="1" value="0" step="1" aria-label="How far the program has run">
<button id="line-on" aria-label="On to the next line">Line on</button>
</div>
<dl class="place" aria-label="Where the tool's tip is">
${[
  ['Tip at x', 'place-x'],
  ['Tip at y', 'place-y'],
  ['Tip at z', 'place-z'],
  ['Move', 'place-how'],
  ['Spindle or beam', 'place-turn'],
  ['Number of the move', 'place-move'],
]
  .map(([label, id]) => `<div><dt>${label}</dt><dd id="${id}"></dd></div>`)
  .join('\n')}
</dl>
<h2>Written lines</h2>
<ol id="written"></ol>
<p class="hint" id="keys">With the plan in focus: arrows move the view, + and &#8722; zoom, 0 shows the whole; comma and full stop
step one move, semicolon and apostrophe one written line, space plays. Wheel and drag do the same; a click on a cut or on a line goes there.</p>`;

function titleCell([label, cell]: readonly [string, string]): string {
  const wide = label === 'Work zero' ? ' class="wide"' : '';
  return `<div${wide}><dt>${label}</dt><dd${cell}></dd></div>`;
}

function keyEntry([name, width, dashes]: readonly [string, number, string]): string {
  const pattern = dashes === '' ? '' : ` stroke-dasharray="${dashes}"`;
  const line = `<svg viewBox="0 0 46 10" aria-hidden="true"><path d="M0 5h46" stroke-width="${width}"${pattern}/></svg>`;
  return `<span>${line}${name}</span>`;
}
