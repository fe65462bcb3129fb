/** Page script, third piece: which program is shown, how far it has run, what is zoomed, and the page's controls. */
export const PAGE_SCRIPT = String.raw`
var LINES_AROUND = 6;
var data = JSON.parse(byId('data').textContent || '');
var MM_PER_INCH = data.mmPerInch;
var models = new Map();
var state = { program: 0, move: 0, unit: 'mm', view: { x: 0, y: 0, scale: 1 }, running: false, pending: false };

function byId(id) {
  var found = document.getElementById(id);
  if (found === null) throw new Error('the page lacks ' + id);
  return found;
}

/** Digits of a length in the unit chosen: thousandths of a millimetre, or a tenth of a thousandth of an inch. */
function digitsOf(mm) {
  var text = state.unit === 'mm' ? mm.toFixed(3) : (mm / MM_PER_INCH).toFixed(4);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

function shortDigits(mm) {
  return digitsOf(mm).replace(/\.?0+$/, '');
}

function lengthText(mm) {
  return shortDigits(mm) + ' ' + state.unit;
}

/** A program's columns are unpacked when it is first looked at. */
function modelOf(index) {
  var found = models.get(index);
  if (found !== undefined) return found;
  var program = data.programs[index];
  var moves = unpackMoves(program.moves);
  weighMoves(moves, program.stock, program.cutBy);
  var model = {
    stock: program.stock,
    moves: moves,
    heights: heightsOf(moves, program.stock),
    deepest: deepestOf(moves),
    cutWidth: program.cutWidth,
    centrelineY: program.centrelineY,
    lines: program.text.split(/\r?\n/),
    shapes: program.outlines.map(function (ring) {
      return { points: pointsOf(ring, true), circle: circleOf(ring), marked: false };
    }).concat(program.lines.map(function (line) {
      return { points: pointsOf(line, false), circle: null, marked: true };
    })),
  };
  models.set(index, model);
  return model;
}

function lookOf() {
  var style = getComputedStyle(document.documentElement);
  return { ink: style.getPropertyValue('--ink').trim(), paper: style.getPropertyValue('--paper').trim() };
}

/** Draws at most once a frame, however many things changed. */
function redraw() {
  if (state.pending) return;
  state.pending = true;
  requestAnimationFrame(function () {
    state.pending = false;
    drawNow();
  });
}

/** A canvas of the page made ready at its size, as sharp as the screen. */
function sheetOn(id) {
  var canvas = /** @type {HTMLCanvasElement} */ (byId(id));
  return startSheet(canvas, canvas.clientWidth, canvas.clientHeight, Math.max(1, window.devicePixelRatio || 1), lookOf());
}

function drawNow() {
  var model = modelOf(state.program);
  drawPlan(sheetOn('plan'), model, state.view, state.move);
  drawSection(sheetOn('section'), model, alongView(state.view), state.move);
  var across = sheetOn('across');
  drawSection(across, model, acrossView(model, across.width), state.move);
}

function showWhole() {
  var plan = byId('plan');
  var fitted = fitPlan(modelOf(state.program), plan.clientWidth, Math.max(240, window.innerHeight * 0.5));
  plan.style.height = Math.round(fitted.height) + 'px';
  state.view = fitted.view;
  redraw();
}

/** Zooms about a place on the plan, in pixels, so that what lies there stays there. */
function zoomAt(px, py, factor) {
  var plan = byId('plan');
  var scale = Math.min(2000, Math.max(0.05, state.view.scale * factor));
  var fromX = (px - plan.clientWidth / 2) / state.view.scale;
  var fromY = (plan.clientHeight / 2 - py) / state.view.scale;
  state.view = {
    x: state.view.x + fromX - (px - plan.clientWidth / 2) / scale,
    y: state.view.y + fromY - (plan.clientHeight / 2 - py) / scale,
    scale: scale,
  };
  redraw();
}

function zoomMiddle(factor) {
  zoomAt(byId('plan').clientWidth / 2, byId('plan').clientHeight / 2, factor);
}

function shiftBy(px, py) {
  state.view = {
    x: state.view.x - px / state.view.scale,
    y: state.view.y + py / state.view.scale,
    scale: state.view.scale,
  };
  redraw();
}

function chooseProgram(index) {
  halt();
  state.program = index;
  var program = data.programs[index];
  var moves = modelOf(index).moves;
  document.querySelectorAll('[data-program]').forEach(function (button, i) {
    if (i === index) button.setAttribute('aria-current', 'true');
    else button.removeAttribute('aria-current');
  });
  document.querySelectorAll('[data-field]').forEach(function (cell) {
    cell.textContent = String(program[cell.getAttribute('data-field') || '']);
  });
  byId('plan').setAttribute('aria-label', 'Plan from above of ' + program.operation + ' in ' + program.part +
    ': ' + moves.count + ' moves. Arrow keys move the view, plus and minus zoom, 0 shows the whole.');
  byId('section').setAttribute('aria-label', 'Section along x of ' + program.operation + ' in ' + program.part);
  byId('across').setAttribute('aria-label', 'Section across y of ' + program.operation + ' in ' + program.part);
  /** @type {HTMLInputElement} */ (byId('step')).max = String(moves.count);
  showWhole();
  goTo(0);
  showUnits();
}

function goTo(move) {
  var moves = modelOf(state.program).moves;
  state.move = Math.max(0, Math.min(moves.count, Math.round(move)));
  var slider = /** @type {HTMLInputElement} */ (byId('step'));
  slider.value = String(state.move);
  slider.setAttribute('aria-valuetext', 'move ' + state.move + ' of ' + moves.count + ', line ' + moves.line[state.move]);
  showPlace();
  showLines();
  redraw();
}

function showPlace() {
  var moves = modelOf(state.program).moves;
  var i = state.move;
  var speed = state.unit === 'mm' ? moves.feed[i].toFixed(0) + ' mm/min' : (moves.feed[i] / MM_PER_INCH).toFixed(1) + ' in/min';
  byId('place-x').textContent = digitsOf(moves.x[i]);
  byId('place-y').textContent = digitsOf(moves.y[i]);
  byId('place-z').textContent = digitsOf(moves.z[i]);
  byId('place-how').textContent = i === 0 ? 'before the first move' : moves.kind[i] === RAPID ? 'rapid' : 'feed ' + speed;
  byId('place-turn').textContent = moves.spindle[i] > 0 ? 'S ' + moves.spindle[i] : 'off';
  byId('place-move').textContent = i + ' of ' + moves.count;
}

/** The written lines around the one that made the move shown. */
function showLines() {
  var model = modelOf(state.program);
  var current = Math.max(1, model.moves.line[state.move]);
  var list = byId('written');
  var first = Math.max(1, Math.min(current - LINES_AROUND, model.lines.length - 2 * LINES_AROUND));
  list.replaceChildren();
  for (var n = first; n <= Math.min(model.lines.length, first + 2 * LINES_AROUND); n += 1) {
    var item = document.createElement('li');
    item.value = n;
    item.textContent = model.lines[n - 1] || '\u00a0';
    if (n === current) item.setAttribute('aria-current', 'true');
    list.appendChild(item);
  }
}

/** The last move that a line, or one before it, has made. */
function moveOfLine(line) {
  var moves = modelOf(state.program).moves;
  var found = 0;
  for (var i = 1; i <= moves.count; i += 1) if (moves.line[i] <= line) found = i;
  return found;
}

/** To the end of the next written line that moves, or of the one before. */
function stepLine(direction) {
  var moves = modelOf(state.program).moves;
  var line = moves.line[state.move];
  var i = state.move;
  if (direction > 0) {
    while (i < moves.count && moves.line[i + 1] === line) i += 1;
    if (i === state.move && i < moves.count) i += 1;
    while (i < moves.count && moves.line[i + 1] === moves.line[i]) i += 1;
  } else {
    while (i > 0 && moves.line[i] === line) i -= 1;
  }
  goTo(i);
}

function showUnits() {
  document.querySelectorAll('[data-mm]').forEach(function (cell) {
    cell.textContent = digitsOf(Number(cell.getAttribute('data-mm'))) + ' ' + state.unit;
  });
  var program = data.programs[state.program];
  byId('stock-size').textContent = [program.stock.x, program.stock.y, program.stock.z].map(function (side) {
    return shortDigits(side[1] - side[0]);
  }).join(' x ') + ' ' + state.unit;
  byId('cut-width').textContent = lengthText(program.cutWidth);
  byId('proof-figures').textContent = digitsOf(program.proof.maxOvercut) + ', ' + digitsOf(program.proof.maxUndercut) +
    '; ' + lengthText(program.proof.tolerance);
  byId('proof-word').textContent = program.proof.passed ? 'proven' : 'NOT PROVEN: do not cut';
  showPlace();
  redraw();
}

function halt() {
  state.running = false;
  byId('play').textContent = 'Play';
}

function play() {
  if (state.running) return halt();
  var count = modelOf(state.program).moves.count;
  if (state.move >= count) goTo(0);
  state.running = true;
  byId('play').textContent = 'Pause';
  var before = performance.now();
  var exact = state.move;
  requestAnimationFrame(function on(now) {
    if (!state.running) return;
    var seconds = Number(/** @type {HTMLSelectElement} */ (byId('play-time')).value);
    exact += ((now - before) / 1000 / seconds) * count;
    before = now;
    goTo(Math.min(count, Math.floor(exact)));
    if (state.move >= count) halt();
    else requestAnimationFrame(on);
  });
}

/** The move whose cut lies nearest to a place on the plan, within reach of a fingertip. */
function pick(px, py) {
  var plan = byId('plan');
  var moves = modelOf(state.program).moves;
  var x = (px - plan.clientWidth / 2) / state.view.scale + state.view.x;
  var y = (plan.clientHeight / 2 - py) / state.view.scale + state.view.y;
  var best = -1;
  var least = 14 / state.view.scale;
  for (var i = 1; i <= moves.count; i += 1) {
    var gap = distanceTo(x, y, moves.x[i - 1], moves.y[i - 1], moves.x[i], moves.y[i]);
    if (gap < least) {
      least = gap;
      best = i;
    }
  }
  if (best >= 0) goTo(best);
}

function distanceTo(x, y, ax, ay, bx, by) {
  var square = (bx - ax) * (bx - ax) + (by - ay) * (by - ay);
  var share = square === 0 ? 0 : ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square;
  var t = Math.max(0, Math.min(1, share));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}
`;
