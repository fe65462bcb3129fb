/** Page script: which program is shown, how far it has run, where the views are, and what is drawn when. */
export const PAGE_SCRIPT = String.raw`
var LINES_AROUND = 6;
/** Finest step of the time line: shares of the whole. */
var TIME_STEPS = 10000;
/** Programs of more moves are drawn in two goes when they are first shown. */
var AT_ONCE = 100000;
var data = JSON.parse(byId('data').textContent || '');
shown.mmPerInch = data.mmPerInch;
var models = new Map();
var state = {
  program: 0, move: 0, running: false, pending: false,
  view: { x: 0, y: 0, scale: 1 }, isWhole: true,
  line: lineOfPlan(0, 0, 1, 0), section: null, figures: null, now: null, nowMove: -1, sectionView: null, alike: false, reading: 0.5,
  chosen: -1, measured: [], dragging: false,
};

function byId(id) {
  var found = document.getElementById(id);
  if (found === null) throw new Error('the page lacks ' + id);
  return found;
}

function inputOf(id) {
  return /** @type {HTMLInputElement} */ (byId(id));
}

/** A program's columns are unpacked when it is first looked at. */
function modelOf(index) {
  var found = models.get(index);
  if (found !== undefined) return found;
  var program = data.programs[index];
  var model = modelFrom(program, unpackMoves(program.moves));
  models.set(index, model);
  return model;
}

function current() {
  return modelOf(state.program);
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
  var model = current();
  drawPlan(sheetOn('plan'), model, state.view, state.move, {
    line: state.line, chosen: state.chosen, measured: state.measured, marks: marksOf(model, state.chosen),
  });
  drawSide(sheetOn('side'), model, state.view, state.move);
  drawSectionNow(model);
}

function drawSectionNow(model) {
  var canvas = byId('section');
  if (state.section === null && model.moves.count > AT_ONCE && !state.dragging && !model.isSettled) {
    // The plan of a long program is shown before its section is cut.
    model.isSettled = true;
    setTimeout(redraw, 0);
    return;
  }
  if (state.section === null) {
    state.section = sectionOf(model, state.line, state.dragging ? 300 : 900);
    state.nowMove = -1;
    // Measured when it has been drawn: a long program must not keep anybody waiting for its first picture.
    if (!state.dragging) setTimeout(measureSection, 0, model, state.section);
  }
  if (state.sectionView === null) {
    state.sectionView = fitSection(model, state.line, canvas.clientWidth, canvas.clientHeight);
    if (state.alike) state.sectionView.tall = 1;
  }
  carveUpTo(model, state.move);
  drawSection(sheetOn('section'), model, state.section, state.sectionView, state.now, stationRead());
  showReading();
}

function measureSection(model, section) {
  if (section !== state.section || state.dragging) return;
  state.figures = figuresOf(model, section);
  showFigures();
}

/** What has been cut so far along the section: forward only what is new. */
function carveUpTo(model, move) {
  var section = state.section;
  state.now =
    state.nowMove < 0 || move < state.nowMove
      ? leftUpTo(model, section, move)
      : carvedOn(model, section, state.now, state.nowMove, move);
  state.nowMove = move;
}

/** Lays the section anew; the view of it is kept while only its place changes. */
function setLineOfSection(ax, ay, bx, by, keepView) {
  state.line = lineOfPlan(ax, ay, bx, by);
  state.section = null;
  if (!keepView) state.sectionView = null;
  showLineFields();
  redraw();
}

/** Through a place, from edge to edge of the stock and a little beyond. */
function sectionThrough(x, y, lengthways) {
  var stock = current().stock;
  if (lengthways) setLineOfSection(stock.x[0] - 3, y, stock.x[1] + 3, y, false);
  else setLineOfSection(x, stock.y[0] - 3, x, stock.y[1] + 3, false);
}

function showWhole() {
  var plan = byId('plan');
  var fitted = fitPlan(current(), plan.clientWidth, Math.max(300, window.innerHeight * 0.55));
  plan.style.height = Math.round(fitted.height) + 'px';
  state.view = fitted.view;
  state.isWhole = true;
  redraw();
}

/** Zooms about a place on the plan, in pixels, so that what lies there stays there. */
function zoomAt(px, py, factor) {
  var plan = byId('plan');
  var scale = Math.min(5000, Math.max(0.05, state.view.scale * factor));
  var fromX = (px - plan.clientWidth / 2) / state.view.scale;
  var fromY = (plan.clientHeight / 2 - py) / state.view.scale;
  state.view = {
    x: state.view.x + fromX - (px - plan.clientWidth / 2) / scale,
    y: state.view.y + fromY - (plan.clientHeight / 2 - py) / scale,
    scale: scale,
  };
  state.isWhole = false;
  redraw();
}

function shiftBy(px, py) {
  state.isWhole = false;
  state.view = { x: state.view.x - px / state.view.scale, y: state.view.y + py / state.view.scale, scale: state.view.scale };
  redraw();
}

/** The same of the section. */
function zoomSectionAt(px, py, factor) {
  var canvas = byId('section');
  var view = state.sectionView;
  var scale = Math.min(20000, Math.max(0.05, view.scale * factor));
  var across = px - canvas.clientWidth / 2, up = canvas.clientHeight / 2 - py;
  state.sectionView = {
    d: view.d + across / view.scale - across / scale,
    z: view.z + up / view.scale / view.tall - up / scale / view.tall,
    scale: scale,
    tall: view.tall,
  };
  redraw();
}

function shiftSectionBy(px, py) {
  var view = state.sectionView;
  state.sectionView = Object.assign({}, view, { d: view.d - px / view.scale, z: view.z + py / view.scale / view.tall });
  redraw();
}

function wholeSection() {
  state.sectionView = null;
  redraw();
}

function middleOfCanvas(id, zoom, factor) {
  zoom(byId(id).clientWidth / 2, byId(id).clientHeight / 2, factor);
}

function chooseProgram(index) {
  halt();
  state.program = index;
  state.chosen = -1;
  state.measured = [];
  var program = data.programs[index];
  document.querySelectorAll('[data-program]').forEach(function (button, i) {
    if (i === index) button.setAttribute('aria-current', 'true');
    else button.removeAttribute('aria-current');
  });
  document.querySelectorAll('[data-field]').forEach(function (cell) {
    cell.textContent = String(program[cell.getAttribute('data-field') || '']);
  });
  var of = ' of ' + program.operation + ' in ' + program.part;
  byId('plan').setAttribute('aria-label', 'Plan from above' + of + ': ' + current().moves.count +
    ' moves. Arrow keys move the view, plus and minus zoom, 0 shows the whole.');
  byId('section').setAttribute('aria-label', 'Section' + of);
  byId('side').setAttribute('aria-label', 'Side view' + of);
  listFeatures();
  listCautions(program);
  showWhole();
  var line = defaultLine(current());
  setLineOfSection(line.ax, line.ay, line.bx, line.by, false);
  goTo(0);
  showUnits();
}

function listCautions(program) {
  var list = byId('program-cautions');
  list.replaceChildren();
  program.cautions.forEach(function (caution) {
    var item = document.createElement('li');
    item.textContent = caution;
    list.appendChild(item);
  });
}

function goTo(move) {
  var model = current();
  state.move = Math.max(0, Math.min(model.moves.count, Math.round(move)));
  var slider = inputOf('step');
  slider.value = String(Math.round((model.minutes[state.move] / (model.minutes[model.moves.count] || 1)) * TIME_STEPS));
  slider.setAttribute('aria-valuetext', timeText(model) + ', move ' + state.move + ' of ' + model.moves.count + ', line ' + model.moves.line[state.move]);
  showPlace();
  showLines();
  redraw();
}

function goToTime(share) {
  var model = current();
  goTo(moveAtTime(model, share * model.minutes[model.moves.count]));
}

function timeText(model) {
  return 'about ' + model.minutes[state.move].toFixed(1) + ' of ' + model.minutes[model.moves.count].toFixed(1) + ' min';
}

function showPlace() {
  var model = current();
  var moves = model.moves;
  var i = state.move;
  var speed = shown.unit === 'mm' ? moves.feed[i].toFixed(0) + ' mm/min' : (moves.feed[i] / shown.mmPerInch).toFixed(1) + ' in/min';
  var cut = i === 0 || moves.kind[i] === RAPID ? undefined : model.cuts[model.cutOfLine[moves.line[i]]];
  byId('place-time').textContent = timeText(model);
  byId('place-x').textContent = digitsOf(moves.x[i]);
  byId('place-y').textContent = digitsOf(moves.y[i]);
  byId('place-z').textContent = digitsOf(moves.z[i]);
  byId('place-how').textContent = i === 0 ? 'before the first move' : moves.kind[i] === RAPID ? 'rapid' : 'feed ' + speed;
  byId('place-turn').textContent = moves.spindle[i] > 0 ? 'S ' + moves.spindle[i] : 'off';
  byId('place-move').textContent = i + ' of ' + moves.count;
  byId('place-cut').textContent = cut === undefined ? '-' : cut.id;
}

/** The written lines around the one that made the move shown. */
function showLines() {
  var model = current();
  var lines = linesOf(model, data.programs[state.program].text);
  var shownLine = Math.max(1, model.moves.line[state.move]);
  var list = byId('written');
  var first = Math.max(1, Math.min(shownLine - LINES_AROUND, lines.length - 2 * LINES_AROUND));
  list.replaceChildren();
  for (var n = first; n <= Math.min(lines.length, first + 2 * LINES_AROUND); n += 1) {
    var item = document.createElement('li');
    item.value = n;
    item.id = 'line-' + n;
    item.setAttribute('role', 'option');
    item.setAttribute('aria-selected', n === shownLine ? 'true' : 'false');
    item.textContent = lines[n - 1] || '\u00a0';
    if (n === shownLine) item.setAttribute('aria-current', 'true');
    list.appendChild(item);
  }
  list.setAttribute('aria-activedescendant', 'line-' + shownLine);
}

/** The last move that a line, or one before it, has made. */
function moveOfLine(line) {
  var moves = current().moves;
  var low = 0, high = moves.count;
  while (low < high) {
    var middle = (low + high + 1) >> 1;
    if (moves.line[middle] <= line) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** To the end of the next written line that moves, or of the one before. */
function stepLine(direction) {
  var moves = current().moves;
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

function halt() {
  state.running = false;
  byId('play').textContent = 'Play';
}

/** Runs at an even pace in time: all of the program in as many seconds as are chosen. */
function play() {
  if (state.running) return halt();
  var model = current();
  var whole = model.minutes[model.moves.count];
  if (state.move >= model.moves.count) goTo(0);
  state.running = true;
  byId('play').textContent = 'Pause';
  var before = performance.now();
  var minutes = model.minutes[state.move];
  requestAnimationFrame(function on(now) {
    if (!state.running) return;
    var seconds = Number(/** @type {HTMLSelectElement} */ (byId('play-time')).value);
    minutes += ((now - before) / 1000 / seconds) * whole;
    before = now;
    goTo(minutes >= whole ? model.moves.count : moveAtTime(model, minutes));
    if (state.move >= model.moves.count) halt();
    else requestAnimationFrame(on);
  });
}
`;
