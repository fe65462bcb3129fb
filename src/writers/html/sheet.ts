/** The fixed parts of the preview page: the drawing sheet with its title block, the time line, the features and the listing. */

const FIELDS: readonly (readonly [label: string, cell: string])[] = [
  ['Operation', ' data-field="operation"'],
  ['Part', ' data-field="part"'],
  ['Program file', ' data-field="path"'],
  ['Machine', ' data-field="machine"'],
  ['Tool', ' data-field="tool"'],
  ['Width of cut', ' id="cut-width"'],
  ['Work zero', ' data-field="workZero"'],
  ['Stock', ' id="stock-size"'],
  ['Deepest cut', ' id="deepest"'],
  ['Machine time', ' data-field="time"'],
  ['Proof', ' id="proof-word"'],
];

/** The lines of the drawing: what each means, its width and its dashes in pixels. */
export const LINE_KEY: readonly (readonly [name: string, width: number, dashes: string])[] = [
  ["part's edge; in the section, what is left", 2, ''],
  ['meant (in the section)', 0.9, ''],
  ['may be cut besides', 0.9, '1.5 3'],
  ['stock before cutting', 0.9, '12 2 1.5 2 1.5 2'],
  ['centre line, nut line', 0.9, '12 2 1.5 2'],
  ['rapid', 0.9, '5 4'],
  ['cut: the deeper or stronger, the heavier', 3, ''],
];

const POINTER: readonly (readonly [value: string, label: string])[] = [
  ['look', 'moves the view, picks'],
  ['section', 'draws the section'],
  ['measure', 'measures'],
];

const zoomButtons = (of: string, prefix: string): string =>
  `<div class="zoom"><button id="${prefix}farther" aria-label="${of}: farther off">&#8722;</button><button id="${prefix}nearer" aria-label="${of}: nearer">+</button><button id="${prefix}whole" aria-label="${of}: the whole">Whole</button></div>`;

const numberField = (id: string, label: string): string =>
  `<label>${label} <input id="${id}" inputmode="decimal" size="8" autocomplete="off"></label>`;

/** The sheet: plan, section, side view, title block and the key to its lines. */
export const SHEET = `<section class="sheet" aria-label="Drawing of the program"><div class="frame">
<fieldset class="pointer"><legend>On the plan the pointer</legend>
${POINTER.map(([value, label], i) => `<label><input type="radio" name="pointer" value="${value}"${i === 0 ? ' checked' : ''}> ${label}</label>`).join('\n')}
</fieldset>
<div class="below">
<h2>Plan from above</h2>
<canvas id="plan" tabindex="0" role="img" aria-describedby="keys"></canvas>
${zoomButtons('Plan', '')}
</div>
<div class="below"><h2>Section A&#8211;A</h2><canvas id="section" tabindex="0" role="img" aria-describedby="keys"></canvas>
${zoomButtons('Section', 's-')}</div>
<div class="strip">
<fieldset><legend>Section from</legend>${numberField('from-x', 'x')} ${numberField('from-y', 'y')} ${numberField('to-x', 'to x')} ${numberField('to-y', 'y')}</fieldset>
<button id="lengthways">Lengthways</button>
<button id="crossways">Crossways</button>
<label><input type="checkbox" id="alike"> heights and lengths alike</label>
</div>
<dl class="place four" aria-label="Largest errors along the section, measured as the proof does">
<div><dt>Cut beyond the walls</dt><dd id="found-over"></dd></div>
<div><dt>Left short of the walls</dt><dd id="found-under"></dd></div>
<div><dt>Cut below the floor</dt><dd id="found-deep"></dd></div>
<div><dt>Left above the floor</dt><dd id="found-high"></dd></div>
</dl>
<div class="strip"><label for="reading">Read the section at</label> <input id="reading" type="range" min="0" max="1000" value="500">
<output id="read-off" for="reading"></output></div>
<div class="below"><h2>Side view</h2><canvas id="side" role="img"></canvas></div>
<dl class="title-block">
${FIELDS.map(titleCell).join('\n')}
<div class="whole"><dt>Largest overcut, undercut; limit</dt><dd id="proof-figures"></dd></div>
</dl>
<div class="key" role="group" aria-label="Key to the lines">
${LINE_KEY.map(keyEntry).join('\n')}
</div>
</div></section>`;

/** Stepping through the program, where the tool is, the features, measuring, and the written lines. */
export const STEPPING = `<div class="steps">
<button id="play">Play</button>
<label>the whole in <select id="play-time"><option value="10">10 seconds</option><option value="30" selected>30 seconds</option><option value="120">2 minutes</option></select></label>
<button id="line-back">Line back</button>
<input id="step" type="range" min="0" max="10000" value="0" step="1" aria-label="Time line: how far the program has run">
<button id="line-on">Line on</button>
</div>
<dl class="place" aria-label="Where the tool's tip is">
${[
  ['Time', 'place-time'],
  ['Tip at x', 'place-x'],
  ['Tip at y', 'place-y'],
  ['Tip at z', 'place-z'],
  ['Move', 'place-how'],
  ['Spindle or beam', 'place-turn'],
  ['Number of the move', 'place-move'],
  ['Works on', 'place-cut'],
]
  .map(([label, id]) => `<div><dt>${label}</dt><dd id="${id}"></dd></div>`)
  .join('\n')}
</dl>
<div class="two">
<section aria-labelledby="feature-head"><h2 id="feature-head">Feature</h2>
<div class="strip"><label for="feature">Show</label> <select id="feature"></select>
<button id="feature-zoom">Near</button> <button id="feature-section">Section through it</button></div>
<div id="feature-facts" aria-live="polite"></div>
<div id="feature-lines"></div>
</section>
<section aria-labelledby="measure-head"><h2 id="measure-head">Measure</h2>
<div class="strip"><label>from <select id="measure-from"></select></label> <label>to <select id="measure-to"></select></label> <button id="measure-clear">Clear</button></div>
<p id="measured" aria-live="polite"></p>
</section>
</div>
<h2>Largest errors of the proof</h2>
<div id="worst" class="scroll" tabindex="0" role="region" aria-label="Largest errors of the proof"></div>
<h2>Cautions for this program</h2>
<ul id="program-cautions"></ul>
<h2 id="written-head">Written lines</h2>
<ol id="written" tabindex="0" role="listbox" aria-labelledby="written-head"></ol>
<p class="hint" id="keys">With the plan or the section in focus: arrows move the view, + and &#8722; zoom, 0 shows the whole. On the plan, Shift with arrows
moves the section; comma and full stop step one move, semicolon and apostrophe one written line, space plays, Escape clears what is chosen and
measured. Wheel, drag and two fingers do the same; a click on an edge or a cut chooses it, a click on a line goes there. In the written lines,
arrows step line by line.</p>`;

function titleCell([label, cell]: readonly [string, string]): string {
  const wide = label === 'Work zero' ? ' class="wide"' : '';
  return `<div${wide}><dt>${label}</dt><dd${cell}></dd></div>`;
}

function keyEntry([name, width, dashes]: readonly [string, number, string]): string {
  const pattern = dashes === '' ? '' : ` stroke-dasharray="${dashes}"`;
  const line = `<svg viewBox="0 0 46 10" aria-hidden="true"><path d="M0 5h46" stroke-width="${width}"${pattern}/></svg>`;
  return `<span>${line}${name}</span>`;
}
