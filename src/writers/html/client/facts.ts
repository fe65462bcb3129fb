/** Page script: numbers in words. The section's figures, the chosen feature, the largest errors of the proof, what is measured. */
export const FACTS_SCRIPT = `
var MOST_RUNS = 8;

function element(name, text) {
  var made = document.createElement(name);
  if (text !== undefined) made.textContent = text;
  return made;
}

function buttonFor(text, act) {
  var button = element('button', text);
  button.addEventListener('click', act);
  return button;
}

function figureText(figure) {
  if (state.section !== null && state.section.isRough) return 'too many moves here: lay it elsewhere';
  return figure.value > -Infinity ? lengthText(Math.max(0, figure.value)) : 'nothing to measure';
}

function showFigures() {
  [['over', 'found-over'], ['under', 'found-under'], ['deep', 'found-deep'], ['high', 'found-high']].forEach(function (pair) {
    byId(pair[1]).textContent = figureText(state.figures[pair[0]]);
  });
}

/** Number of the station nearest to where the section is read. */
function stationRead() {
  var stations = state.section.stations;
  return Math.min(stations.length - 1, firstStation(stations, state.reading * state.line.length));
}

function showReading() {
  if (state.section === null) return;
  var section = state.section;
  var k = stationRead();
  var d = section.stations[k];
  var x = state.line.ax + d * state.line.ux, y = state.line.ay + d * state.line.uy;
  var place = 'x ' + digitsOf(x) + ', y ' + digitsOf(y) + ' ' + shown.unit + ': ';
  byId('read-off').textContent = Number.isNaN(section.top[k])
    ? place + 'beside the stock'
    : place + 'stock ' + digitsOf(section.top[k]) + ', meant ' + digitsOf(section.meant[k]) + ', left ' + digitsOf(section.left[k]);
}

function showLineFields() {
  var line = state.line;
  [['from-x', line.ax], ['from-y', line.ay], ['to-x', line.bx], ['to-y', line.by]].forEach(function (pair) {
    var field = inputOf(pair[0]);
    if (document.activeElement !== field) field.value = shortDigits(pair[1]);
  });
}

/** Every cut of the program by name, for those who choose without a pointer. */
function listFeatures() {
  var options = [element('option', 'none')];
  current().cuts.forEach(function (cut) { options.push(element('option', cut.id)); });
  options.forEach(function (option, i) { /** @type {HTMLOptionElement} */ (option).value = String(i - 1); });
  byId('feature').replaceChildren.apply(byId('feature'), options);
  ['measure-from', 'measure-to'].forEach(function (id) {
    var copies = options.map(function (option) { return option.cloneNode(true); });
    copies[0].textContent = '-';
    var zero = /** @type {HTMLOptionElement} */ (element('option', 'the zero that places are told from'));
    zero.value = 'zero';
    copies.splice(1, 0, zero);
    byId(id).replaceChildren.apply(byId(id), copies);
  });
}

function chooseFeature(number) {
  state.chosen = number;
  inputOf('feature').value = String(number);
  showFeature();
  redraw();
}

/** A place told from the datum. */
function placeText(model, x, y) {
  return lengthText(x - model.datum.at[0]) + ' ' + model.datum.words[0] + ', ' + lengthText(y - model.datum.at[1]) + ' ' + model.datum.words[1];
}

function showFeature() {
  var model = current();
  var facts = byId('feature-facts');
  facts.replaceChildren();
  byId('feature-lines').replaceChildren();
  var cut = model.cuts[state.chosen];
  if (cut === undefined) {
    facts.appendChild(element('p', 'Click an edge on the plan, or choose here.'));
    return;
  }
  var list = element('dl');
  list.className = 'facts';
  factsOf(model, cut).forEach(function (fact) {
    var row = element('div');
    row.appendChild(element('dt', fact[0]));
    row.appendChild(element('dd', fact[1]));
    list.appendChild(row);
  });
  facts.appendChild(list);
  showRuns(cut);
}

var KINDS_IN_WORDS = {
  region: 'cleared down to a floor', drill: 'drilled', separate: 'cut along its edge', surface: 'worked to a surface', line: 'marked line',
};

function factsOf(model, cut) {
  var middle = middleOf(cut);
  var box = boundsOf(cut.line === null ? cut.rings[0] : cut.line);
  var circle = cut.line === null ? circleOf(cut.rings[0]) : null;
  var facts = [
    ['What is done', KINDS_IN_WORDS[cut.kind] + (cut.through ? ', right through' : '')],
    ['Middle', placeText(model, middle[0], middle[1])],
    circle === null
      ? ['Size', lengthText(box.maxX - box.minX) + ' along x, ' + lengthText(box.maxY - box.minY) + ' along y']
      : ['Diameter', lengthText(2 * circle.radius)],
  ];
  if (cut.kind !== 'line' || model.end.kind !== 'beam') {
    facts.push(['Floor at its middle', cut.through ? 'right through' : lengthText(heightOf(cut.floor, middle[0], middle[1])) + ' (z)']);
  }
  cut.figures.forEach(function (figure) {
    facts.push([figure.name, (figure.value === null ? 'not a number' : lengthText(figure.value)) + ', at most ' + lengthText(figure.limit) +
      (figure.passed ? '' : ': NOT PROVEN')]);
  });
  return facts;
}

function showRuns(cut) {
  var room = byId('feature-lines');
  if (cut.runs.length === 0) {
    room.appendChild(element('p', 'No line of this program cuts it.'));
    return;
  }
  room.appendChild(element('p', 'Cut by lines'));
  cut.runs.slice(0, MOST_RUNS).forEach(function (run) {
    room.appendChild(buttonFor(run[0] === run[1] ? String(run[0]) : run[0] + ' to ' + run[1], function () { goTo(moveOfLine(run[0])); }));
  });
  if (cut.runs.length > MOST_RUNS) room.appendChild(element('p', 'and ' + (cut.runs.length - MOST_RUNS) + ' more stretches'));
}

function showWorst() {
  var model = current();
  var room = byId('worst');
  room.replaceChildren();
  var failed = data.programs[state.program].figures;
  if (worstOf(model).length === 0 && failed.length === 0) {
    room.appendChild(element('p', 'This program cuts nothing that is measured.'));
    return;
  }
  failed.forEach(function (figure) { room.appendChild(element('p', 'NOT PROVEN: ' + figure.name)); });
  var table = element('table');
  var head = element('tr');
  ['Feature', 'Figure', 'Found', 'At most', 'Place', 'Line', 'On the plan'].forEach(function (text) {
    var cell = element('th', text);
    cell.setAttribute('scope', 'col');
    head.appendChild(cell);
  });
  table.appendChild(head);
  worstOf(model).forEach(function (mark) { table.appendChild(rowOf(model, mark)); });
  room.appendChild(table);
}

function rowOf(model, mark) {
  var row = element('tr');
  var figure = mark.figure;
  [
    model.cuts[mark.cut].id, mark.sign + ' ' + figure.name, figure.value === null ? 'not a number' : lengthText(figure.value),
    lengthText(figure.limit), 'x ' + digitsOf(mark.place[0]) + ', y ' + digitsOf(mark.place[1]),
    figure.line === null ? '-' : String(figure.line),
  ].forEach(function (text) { row.appendChild(element('td', text)); });
  var cell = element('td');
  cell.appendChild(buttonFor('Show', function () { showMark(mark); }));
  row.appendChild(cell);
  return row;
}

/** Goes near the place of an error, with a section straight through the edge it lies at. */
function showMark(mark) {
  var model = current();
  var x = mark.place[0], y = mark.place[1];
  var cut = model.cuts[mark.cut];
  var sides = cut.shape.sides.length > 0 ? cut.shape.sides : cut.lineSides;
  var way = squareTo(sides, x, y);
  chooseFeature(mark.cut);
  setLineOfSection(x - 4 * way[0], y - 4 * way[1], x + 4 * way[0], y + 4 * way[1], false);
  state.view = { x: x, y: y, scale: 40 };
  state.reading = 0.5;
  inputOf('reading').value = '500';
  if (mark.figure.line !== null) goTo(moveOfLine(mark.figure.line));
  redraw();
}

/** Unit direction square to the nearest side. */
function squareTo(sides, x, y) {
  var best = sides[0], least = Infinity;
  sides.forEach(function (s) {
    var p = nearestOn(s, x, y);
    var d = Math.hypot(x - p[0], y - p[1]);
    if (d < least) { least = d; best = s; }
  });
  var near = nearestOn(best, x, y);
  var dx = best.bulge === 0 ? best.y1 - best.y0 : near[0] - best.cx, dy = best.bulge === 0 ? best.x0 - best.x1 : near[1] - best.cy;
  var length = Math.hypot(dx, dy) || 1;
  return [dx / length, dy / length];
}

function showMeasured() {
  var model = current();
  var points = state.measured;
  var text = 'Set the pointer to measure and click two places; it catches corners, middles and edges. Or choose two features.';
  if (points.length === 1) text = 'From ' + points[0].what + ' (' + placeText(model, points[0].x, points[0].y) + ').';
  if (points.length === 2) {
    var dx = points[1].x - points[0].x, dy = points[1].y - points[0].y;
    text = 'From ' + points[0].what + ' to ' + points[1].what + ': ' + lengthText(Math.hypot(dx, dy)) + ' straight, ' +
      lengthText(Math.abs(dx)) + ' along x, ' + lengthText(Math.abs(dy)) + ' along y' + gapText(points) + '.';
  }
  byId('measured').textContent = text;
}

/** Between two features also the way from edge to edge. */
function gapText(points) {
  var a = points[0].cut, b = points[1].cut;
  if (a === undefined || b === undefined || a === b) return '';
  var shapes = [a, b].map(function (cut) { return cut.shape.sides.length > 0 ? cut.shape.sides : cut.lineSides; });
  var least = Infinity;
  [[0, 1], [1, 0]].forEach(function (pair) {
    shapes[pair[0]].forEach(function (s) {
      pointsOf([[s.x0, s.y0, s.bulge], [s.x1, s.y1]], false).forEach(function (p) {
        least = Math.min(least, distanceToSides(shapes[pair[1]], p[0], p[1]));
      });
    });
  });
  return ', ' + lengthText(least) + ' from edge to edge';
}

function showUnits() {
  document.querySelectorAll('[data-mm]').forEach(function (cell) {
    cell.textContent = digitsOf(Number(cell.getAttribute('data-mm'))) + ' ' + shown.unit;
  });
  var program = data.programs[state.program];
  byId('stock-size').textContent = [program.stock.x, program.stock.y, program.stock.z].map(function (side) {
    return shortDigits(side[1] - side[0]);
  }).join(' x ') + ' ' + shown.unit;
  byId('cut-width').textContent = lengthText(program.cutWidth);
  byId('deepest').textContent = lengthText(program.deepest);
  byId('proof-figures').textContent = digitsOf(program.proof.maxOvercut) + ', ' + digitsOf(program.proof.maxUndercut) +
    '; ' + lengthText(program.proof.tolerance);
  byId('proof-word').textContent = program.proof.passed ? 'proven' : 'NOT PROVEN: do not cut';
  if (state.figures !== null) showFigures();
  showLineFields();
  showFeature();
  showMeasured();
  showWorst();
  showPlace();
  redraw();
}
`;
