/** Page script, last piece: mouse, keys, buttons, printing, and the start. */
export const CONTROLS_SCRIPT = `
function onPress(id, act) {
  byId(id).addEventListener('click', function () { act(); });
}

var VIEW_KEYS = {
  ArrowLeft: function () { shiftBy(40, 0); },
  ArrowRight: function () { shiftBy(-40, 0); },
  ArrowUp: function () { shiftBy(0, 40); },
  ArrowDown: function () { shiftBy(0, -40); },
  '+': function () { middleOfCanvas('plan', zoomAt, 1.25); },
  '=': function () { middleOfCanvas('plan', zoomAt, 1.25); },
  '-': function () { middleOfCanvas('plan', zoomAt, 0.8); },
  '0': showWhole,
  Escape: clearChosen,
  'Shift ArrowLeft': function () { moveSection(-1, 0); },
  'Shift ArrowRight': function () { moveSection(1, 0); },
  'Shift ArrowUp': function () { moveSection(0, 1); },
  'Shift ArrowDown': function () { moveSection(0, -1); },
};
var SECTION_KEYS = {
  ArrowLeft: function () { shiftSectionBy(40, 0); },
  ArrowRight: function () { shiftSectionBy(-40, 0); },
  ArrowUp: function () { shiftSectionBy(0, 40); },
  ArrowDown: function () { shiftSectionBy(0, -40); },
  '+': function () { middleOfCanvas('section', zoomSectionAt, 1.25); },
  '=': function () { middleOfCanvas('section', zoomSectionAt, 1.25); },
  '-': function () { middleOfCanvas('section', zoomSectionAt, 0.8); },
  '0': wholeSection,
};
var STEP_KEYS = {
  ',': function () { goTo(state.move - 1); },
  '.': function () { goTo(state.move + 1); },
  ';': function () { stepLine(-1); },
  "'": function () { stepLine(1); },
  ' ': play,
};
/** On the time line the arrows go by moves, however short those are. */
var SLIDER_KEYS = {
  ArrowLeft: function () { goTo(state.move - 1); },
  ArrowDown: function () { goTo(state.move - 1); },
  ArrowRight: function () { goTo(state.move + 1); },
  ArrowUp: function () { goTo(state.move + 1); },
  Home: function () { goTo(0); },
  End: function () { goTo(current().moves.count); },
};
var LIST_KEYS = {
  ArrowUp: function () { goTo(moveOfLine(Math.max(1, current().moves.line[state.move] - 1))); },
  ArrowDown: function () { stepLine(1); },
  Home: function () { goTo(0); },
  End: function () { goTo(current().moves.count); },
};

/** The section moves by a tenth of what the plan shows in a hundred pixels: far off in large steps, near in small ones. */
function moveSection(dx, dy) {
  var step = 10 / state.view.scale;
  var line = state.line;
  setLineOfSection(line.ax + dx * step, line.ay + dy * step, line.bx + dx * step, line.by + dy * step, true);
}

/** A length as typed, in the unit shown; NaN when it is none. */
function lengthTyped(id) {
  var text = inputOf(id).value.trim().replace(',', '.');
  var value = text === '' ? NaN : Number(text);
  return shown.unit === 'mm' ? value : value * shown.mmPerInch;
}

function takeLineFields() {
  var ends = ['from-x', 'from-y', 'to-x', 'to-y'].map(lengthTyped);
  var good = ends.every(Number.isFinite) && Math.hypot(ends[2] - ends[0], ends[3] - ends[1]) > 0.01;
  ['from-x', 'from-y', 'to-x', 'to-y'].forEach(function (id) { inputOf(id).setAttribute('aria-invalid', good ? 'false' : 'true'); });
  if (good) setLineOfSection(ends[0], ends[1], ends[2], ends[3], false);
}

function listenToKeys(element, keys) {
  element.addEventListener('keydown', function (event) {
    var shifted = keys['Shift ' + event.key];
    var act = event.ctrlKey || event.metaKey || event.altKey ? undefined : event.shiftKey && shifted ? shifted : keys[event.key];
    if (act === undefined) return;
    event.preventDefault();
    act();
  });
}

var PRINT_WIDTH = 1000;

function printSheet(figure, height) {
  var canvas = document.createElement('canvas');
  figure.appendChild(canvas);
  return startSheet(canvas, PRINT_WIDTH, height, 2.5, { ink: '#000000', paper: '#ffffff' });
}

/** On paper every program is a sheet of its own, in black on white, drawn finely. */
function layPrintSheets() {
  var room = byId('print-sheets');
  room.replaceChildren();
  data.programs.forEach(function (program, index) {
    var model = modelOf(index);
    var figure = document.createElement('figure');
    var caption = document.createElement('figcaption');
    caption.textContent = (index + 1) + '. ' + program.operation + ', ' + program.part + ' (' + program.path + '). ' +
      program.machine + '; ' + program.tool + '; work zero: ' + program.workZero + '; ' +
      (program.proof.passed ? 'proven' : 'NOT PROVEN') + ', largest overcut ' + lengthText(program.proof.maxOvercut) +
      ', largest undercut ' + lengthText(program.proof.maxUndercut) + ', limit ' + lengthText(program.proof.tolerance) + '.';
    var fitted = fitPlan(model, PRINT_WIDTH, 420);
    var last = model.moves.count;
    var line = index === state.program ? state.line : defaultLine(model);
    var section = sectionOf(model, line, 900);
    drawPlan(printSheet(figure, fitted.height), model, fitted.view, last, { line: line, chosen: -1, measured: [], marks: marksOf(model, -1) });
    drawSection(printSheet(figure, 200), model, section, fitSection(model, line, PRINT_WIDTH, 200), section.left, -1);
    figure.appendChild(caption);
    room.appendChild(figure);
  });
}

/** An address may end in # and a program's file name; any other ending means the first program. */
function programNamedInAddress() {
  var name = location.hash.slice(1);
  return Math.max(0, data.programs.findIndex(function (program) {
    return program.path === name || encodeURIComponent(program.path) === name;
  }));
}

/** A click on the section reads it there. */
function readAt(place) {
  var d = (place.x - byId('section').clientWidth / 2) / state.sectionView.scale + state.sectionView.d;
  state.reading = Math.max(0, Math.min(1, d / state.line.length));
  inputOf('reading').value = String(Math.round(state.reading * 1000));
  redraw();
}

function chosenBox() {
  var cut = current().cuts[state.chosen];
  return cut === undefined ? null : boundsOf(cut.line === null ? cut.rings[0] : cut.line);
}

function nearFeature() {
  var box = chosenBox();
  if (box === null) return;
  var plan = byId('plan');
  var scale = Math.min(plan.clientWidth / (box.maxX - box.minX + 4), plan.clientHeight / (box.maxY - box.minY + 4)) * 0.8;
  state.view = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2, scale: scale };
  state.isWhole = false;
  redraw();
}

/** Across its shorter side. */
function sectionOfFeature() {
  var box = chosenBox();
  if (box === null) return;
  var x = (box.minX + box.maxX) / 2, y = (box.minY + box.maxY) / 2;
  var wide = box.maxX - box.minX, tall = box.maxY - box.minY;
  var reach = Math.min(wide, tall) / 2 + Math.max(1, Math.min(wide, tall) / 2);
  if (wide < tall) setLineOfSection(x - reach, y, x + reach, y, false);
  else setLineOfSection(x, y - reach, x, y + reach, false);
}

function start() {
  document.querySelectorAll('[data-program]').forEach(function (button, index) {
    button.addEventListener('click', function () { chooseProgram(index); });
  });
  document.querySelectorAll('input[name=unit]').forEach(function (choice) {
    choice.addEventListener('change', function () {
      shown.unit = /** @type {HTMLInputElement} */ (choice).value;
      showUnits();
    });
  });
  var plan = byId('plan');
  var slider = inputOf('step');
  listenToPointer(plan, { zoom: zoomAt, shift: shiftBy, grab: grabOnPlan, pick: pickOnPlan });
  listenToPointer(byId('section'), { zoom: zoomSectionAt, shift: shiftSectionBy, grab: function () { return null; }, pick: readAt });
  listenToKeys(plan, Object.assign({}, VIEW_KEYS, STEP_KEYS));
  listenToKeys(byId('section'), Object.assign({}, SECTION_KEYS, STEP_KEYS));
  listenToKeys(slider, Object.assign({}, SLIDER_KEYS, STEP_KEYS));
  listenToKeys(byId('written'), LIST_KEYS);
  slider.addEventListener('input', function () {
    halt();
    goToTime(Number(slider.value) / TIME_STEPS);
  });
  inputOf('reading').addEventListener('input', function () {
    state.reading = Number(inputOf('reading').value) / 1000;
    redraw();
  });
  inputOf('alike').addEventListener('change', function () {
    state.alike = inputOf('alike').checked;
    wholeSection();
  });
  byId('feature').addEventListener('change', function () { chooseFeature(Number(inputOf('feature').value)); });
  ['measure-from', 'measure-to'].forEach(function (id) { byId(id).addEventListener('change', measureChosen); });
  ['from-x', 'from-y', 'to-x', 'to-y'].forEach(function (id) { byId(id).addEventListener('change', takeLineFields); });
  byId('written').addEventListener('click', function (event) {
    var item = /** @type {HTMLElement} */ (event.target).closest('li');
    if (item !== null) goTo(moveOfLine(item.value));
  });
  onPress('play', play);
  onPress('line-back', function () { stepLine(-1); });
  onPress('line-on', function () { stepLine(1); });
  onPress('nearer', function () { middleOfCanvas('plan', zoomAt, 1.5); });
  onPress('farther', function () { middleOfCanvas('plan', zoomAt, 1 / 1.5); });
  onPress('whole', showWhole);
  onPress('s-nearer', function () { middleOfCanvas('section', zoomSectionAt, 1.5); });
  onPress('s-farther', function () { middleOfCanvas('section', zoomSectionAt, 1 / 1.5); });
  onPress('s-whole', wholeSection);
  onPress('lengthways', function () { sectionThrough(state.view.x, (state.line.ay + state.line.by) / 2, true); });
  onPress('crossways', function () { sectionThrough((state.line.ax + state.line.bx) / 2, state.view.y, false); });
  onPress('feature-zoom', nearFeature);
  onPress('feature-section', sectionOfFeature);
  onPress('measure-clear', clearChosen);
  onPress('print', function () { window.print(); });
  window.addEventListener('beforeprint', layPrintSheets);
  window.addEventListener('afterprint', function () { byId('print-sheets').replaceChildren(); });
  window.addEventListener('hashchange', function () { chooseProgram(programNamedInAddress()); });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', redraw);
  var width = 0;
  new ResizeObserver(function () {
    if (plan.clientWidth === width) return;
    width = plan.clientWidth;
    state.sectionView = null;
    // Whoever has moved the view keeps it.
    if (state.isWhole) showWhole();
    else redraw();
  }).observe(plan);
  chooseProgram(programNamedInAddress());
  takeUpPlace();
  window.addEventListener('beforeunload', keepPlace);
}

if (data.programs.length > 0) start();
`;
