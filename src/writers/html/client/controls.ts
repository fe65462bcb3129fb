/** Page script, last piece: mouse, keys, buttons, printing, and the start. */
export const CONTROLS_SCRIPT = `
function onPress(id, act) {
  byId(id).addEventListener('click', function () { act(); });
}

function listenToPointer(canvas, picks) {
  var held = null;
  canvas.addEventListener('wheel', function (event) {
    event.preventDefault();
    zoomAt(event.offsetX, picks ? event.offsetY : byId('plan').clientHeight / 2, Math.exp(-event.deltaY * 0.0015));
  }, { passive: false });
  canvas.addEventListener('pointerdown', function (event) {
    held = { x: event.clientX, y: event.clientY, moved: 0 };
    canvas.setPointerCapture(event.pointerId);
  });
  canvas.addEventListener('pointermove', function (event) {
    if (held === null) return;
    var dx = event.clientX - held.x;
    var dy = event.clientY - held.y;
    held = { x: event.clientX, y: event.clientY, moved: held.moved + Math.abs(dx) + Math.abs(dy) };
    if (held.moved > 3) shiftBy(dx, picks ? dy : 0);
  });
  canvas.addEventListener('pointerup', function (event) {
    if (picks && held !== null && held.moved <= 3) pick(event.offsetX, event.offsetY);
    held = null;
  });
  canvas.addEventListener('pointercancel', function () { held = null; });
}

var VIEW_KEYS = {
  ArrowLeft: function () { shiftBy(40, 0); },
  ArrowRight: function () { shiftBy(-40, 0); },
  ArrowUp: function () { shiftBy(0, 40); },
  ArrowDown: function () { shiftBy(0, -40); },
  '+': function () { zoomMiddle(1.25); },
  '=': function () { zoomMiddle(1.25); },
  '-': function () { zoomMiddle(0.8); },
  '0': showWhole,
};
var STEP_KEYS = {
  ',': function () { goTo(state.move - 1); },
  '.': function () { goTo(state.move + 1); },
  ';': function () { stepLine(-1); },
  "'": function () { stepLine(1); },
  ' ': play,
};

function listenToKeys(element, keys) {
  element.addEventListener('keydown', function (event) {
    var act = event.ctrlKey || event.metaKey || event.altKey ? undefined : keys[event.key];
    if (act === undefined) return;
    event.preventDefault();
    act();
  });
}

var PRINT_WIDTH = 1000;

function printSheet(figure, height) {
  var canvas = document.createElement('canvas');
  figure.appendChild(canvas);
  return startSheet(canvas, PRINT_WIDTH, height, 2.5, { ink: '#000', paper: '#fff' });
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
    var fitted = fitPlan(model, PRINT_WIDTH, 290);
    var last = model.moves.count;
    drawPlan(printSheet(figure, fitted.height), model, fitted.view, last);
    drawSection(printSheet(figure, 160), model, alongView(fitted.view), last);
    drawSection(printSheet(figure, 160), model, acrossView(model, PRINT_WIDTH / 2), last);
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

function start() {
  document.querySelectorAll('[data-program]').forEach(function (button, index) {
    button.addEventListener('click', function () { chooseProgram(index); });
  });
  document.querySelectorAll('input[name=unit]').forEach(function (choice) {
    choice.addEventListener('change', function () {
      state.unit = /** @type {HTMLInputElement} */ (choice).value;
      showUnits();
    });
  });
  var plan = byId('plan');
  var slider = /** @type {HTMLInputElement} */ (byId('step'));
  listenToPointer(plan, true);
  listenToPointer(byId('section'), false);
  listenToKeys(plan, Object.assign({}, VIEW_KEYS, STEP_KEYS));
  listenToKeys(slider, STEP_KEYS);
  slider.addEventListener('input', function () {
    halt();
    goTo(Number(slider.value));
  });
  byId('written').addEventListener('click', function (event) {
    var item = /** @type {HTMLElement} */ (event.target).closest('li');
    if (item !== null) goTo(moveOfLine(item.value));
  });
  onPress('play', play);
  onPress('line-back', function () { stepLine(-1); });
  onPress('line-on', function () { stepLine(1); });
  onPress('nearer', function () { zoomMiddle(1.5); });
  onPress('farther', function () { zoomMiddle(1 / 1.5); });
  onPress('whole', showWhole);
  onPress('print', function () { window.print(); });
  window.addEventListener('beforeprint', layPrintSheets);
  window.addEventListener('afterprint', function () { byId('print-sheets').replaceChildren(); });
  window.addEventListener('hashchange', function () { chooseProgram(programNamedInAddress()); });
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', redraw);
  var width = 0;
  new ResizeObserver(function () {
    if (plan.clientWidth === width) return;
    width = plan.clientWidth;
    showWhole();
  }).observe(plan);
  chooseProgram(programNamedInAddress());
}

if (data.programs.length > 0) start();
`;
