/** Page script: one program seen from above, and from the side. */
export const PLAN_SCRIPT = `
/** Room about the stock for its dimensions, pixels. */
var ROOM = { side: 60, top: 76, bottom: 96 };
/** Places told from the datum stand no nearer to each other than this. */
var RUNNING_GAP = 14;

/** The wood the cut takes, at its true width, as a tint under the lines. */
function drawWidth(sheet, model, window_, last, width) {
  var runs = runsInView(model, window_);
  if (movesIn(runs) > MOST_LINES && sheet.byPixels) return;
  sheet.ctx.save();
  sheet.ctx.globalAlpha = 0.16;
  sheet.ctx.lineCap = 'round';
  sheet.ctx.lineJoin = 'round';
  sheet.ctx.setLineDash([]);
  sheet.ctx.strokeStyle = sheet.look.ink;
  sheet.ctx.lineWidth = Math.max(0.5, width);
  traceMoves(sheet, model.moves.x, model.moves.y, runs, 1, last, function (i) { return model.moves.weight[i] > 0; });
  sheet.ctx.restore();
}

function drawIntent(sheet, model, chosen) {
  model.shapes.forEach(function (shape) {
    setLine(sheet, shape.cut >= 0 && shape.cut === chosen ? 'chosen' : shape.marked ? 'narrow' : 'edge');
    sheet.ctx.lineJoin = 'miter';
    sheet.ctx.beginPath();
    tracePoints(sheet, shape.points);
    sheet.ctx.stroke();
    if (shape.circle !== null) drawCentreMark(sheet, shape.circle);
  });
}

function drawCentreMark(sheet, circle) {
  var reach = (sheet.x(circle.radius) - sheet.x(0)) + 5;
  var x = sheet.x(circle.x);
  var y = sheet.y(circle.y);
  setLine(sheet, 'centre');
  sheet.ctx.setLineDash([]);
  sheet.ctx.globalAlpha = 0.7;
  strokeLine(sheet, x - reach, y, x + reach, y);
  strokeLine(sheet, x, y - reach, x, y + reach);
  sheet.ctx.globalAlpha = 1;
}

/** Sets where places of the plan lie on the sheet; gives the window of the plan that it shows. */
function layPlan(sheet, view) {
  sheet.x = function (x) { return (x - view.x) * view.scale + sheet.width / 2; };
  sheet.y = function (y) { return sheet.height / 2 - (y - view.y) * view.scale; };
  return {
    minX: view.x - sheet.width / 2 / view.scale, maxX: view.x + sheet.width / 2 / view.scale,
    minY: view.y - sheet.height / 2 / view.scale, maxY: view.y + sheet.height / 2 / view.scale,
  };
}

/** Seen from above. \`shows\`: the section's line, the chosen cut, what is measured, and the marks of the proof; all may be left out. */
function drawPlan(sheet, model, view, last, shows) {
  var stock = model.stock;
  var window_ = layPlan(sheet, view);
  var left = sheet.x(stock.x[0]), right = sheet.x(stock.x[1]);
  var top = sheet.y(stock.y[1]), bottom = sheet.y(stock.y[0]);
  setLine(sheet, 'before');
  model.stockPoints.forEach(function (points) {
    sheet.ctx.beginPath();
    tracePoints(sheet, points);
    sheet.ctx.stroke();
  });
  drawDatum(sheet, model, left, right, top, bottom);
  drawWidth(sheet, model, window_, last, model.cutWidth * view.scale);
  drawIntent(sheet, model, shows.chosen);
  drawPath(sheet, model, model.moves.x, model.moves.y, window_, last, 'plan');
  drawRunning(sheet, model, bottom);
  dimensionAcross(sheet, left, right, top - DIMENSION_GAP, top, lengthText(stock.x[1] - stock.x[0]));
  dimensionUp(sheet, bottom, top, left - DIMENSION_GAP, left, lengthText(stock.y[1] - stock.y[0]));
  drawZero(sheet, sheet.x(0), sheet.y(0), 'x', 'y');
  if (shows.line) drawSectionLine(sheet, shows.line);
  shows.marks.forEach(function (mark, i) { drawMark(sheet, mark, i); });
  if (shows.measured.length > 0) drawMeasured(sheet, shows.measured);
  drawToolFromAbove(sheet, model, view, last);
}

/** The two lines that places are told from. */
function drawDatum(sheet, model, left, right, top, bottom) {
  var x = sheet.x(model.datum.at[0]);
  setLine(sheet, 'centre');
  if (model.centrelineY !== null) strokeLine(sheet, left - 10, sheet.y(model.centrelineY), right + 10, sheet.y(model.centrelineY));
  strokeLine(sheet, x, top - 8, x, bottom + 12);
}

/** Where the features lie, told from the datum along x, each from the same start; as many as there is room for. */
function drawRunning(sheet, model, bottom) {
  var from = model.datum.at[0];
  var places = model.cuts.filter(function (cut) { return cut.kind === 'region' || cut.kind === 'drill'; }).map(function (cut) {
    return middleOf(cut)[0];
  }).sort(function (a, b) { return a - b; });
  var y = bottom + 30;
  var before = -Infinity;
  var farthest = null;
  places.forEach(function (place) {
    var x = sheet.x(place);
    if (x < 0 || x > sheet.width || x - before < RUNNING_GAP) return;
    before = x;
    farthest = x;
    setLine(sheet, 'narrow');
    strokeLine(sheet, x, bottom + 3, x, y + 6);
    arrowHead(sheet, x, y, x >= sheet.x(from) ? 1 : -1, 0);
    sheet.ctx.save();
    sheet.ctx.translate(x, y + 10);
    sheet.ctx.rotate(-Math.PI / 2);
    letter(sheet, shortDigits(place - from), 0, 0, 'right');
    sheet.ctx.restore();
  });
  if (farthest === null) return;
  setLine(sheet, 'narrow');
  strokeLine(sheet, sheet.x(from), y, farthest, y);
  sheet.ctx.beginPath();
  sheet.ctx.arc(sheet.x(from), y, 3.5, 0, 2 * Math.PI);
  sheet.ctx.stroke();
  letter(sheet, model.datum.words[0], Math.max(4, sheet.x(from) + 8), y - 12, 'left');
}

function middleOf(cut) {
  var box = cut.shape.sides.length > 0 ? boundsOf(cut.rings[0]) : boundsOf(cut.line);
  return [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
}

function boundsOf(ring) {
  var box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  pointsOf(ring, true).forEach(function (p) {
    box.minX = Math.min(box.minX, p[0]);
    box.minY = Math.min(box.minY, p[1]);
    box.maxX = Math.max(box.maxX, p[0]);
    box.maxY = Math.max(box.maxY, p[1]);
  });
  return box;
}

/** A cutting plane: narrow dashes, wide at its ends, arrows the way one looks, a letter at either end. */
function drawSectionLine(sheet, line) {
  var ax = sheet.x(line.ax), ay = sheet.y(line.ay), bx = sheet.x(line.bx), by = sheet.y(line.by);
  var ux = line.ux, uy = -line.uy;
  setLine(sheet, 'centre');
  strokeLine(sheet, ax, ay, bx, by);
  [[ax, ay, 1], [bx, by, -1]].forEach(function (end) {
    setLine(sheet, 'edge');
    sheet.ctx.lineWidth = 3;
    strokeLine(sheet, end[0], end[1], end[0] + end[2] * ux * 16, end[1] + end[2] * uy * 16);
    setLine(sheet, 'narrow');
    strokeLine(sheet, end[0], end[1], end[0] + uy * 20, end[1] - ux * 20);
    arrowHead(sheet, end[0] + uy * 20, end[1] - ux * 20, uy, -ux);
    letter(sheet, 'A', end[0] - end[2] * ux * 12, end[1] - end[2] * uy * 12, 'center');
  });
}

/** A place of the proof: which way the error goes is in its triangle, standing for too much and lying for too little. */
function drawMark(sheet, mark, number) {
  var x = sheet.x(mark.place[0]), y = sheet.y(mark.place[1]);
  if (x < -20 || y < -20 || x > sheet.width + 20 || y > sheet.height + 20) return;
  var up = y > 60 ? -1 : 1;
  // To either side by turns, so that two errors at one place are both seen.
  var aside = (number % 2 === 0 ? 1 : -1) * (22 + 14 * ((number >> 1) % 3));
  balloon(sheet, x, y, x + aside, y + up * (26 + 12 * (number % 2)), mark.sign);
}

function drawMeasured(sheet, points) {
  points.forEach(function (p) {
    setLine(sheet, 'edge');
    var x = sheet.x(p.x), y = sheet.y(p.y);
    strokeLine(sheet, x - 7, y - 7, x + 7, y + 7);
    strokeLine(sheet, x - 7, y + 7, x + 7, y - 7);
  });
  if (points.length < 2) return;
  var ax = sheet.x(points[0].x), ay = sheet.y(points[0].y), bx = sheet.x(points[1].x), by = sheet.y(points[1].y);
  var length = Math.hypot(bx - ax, by - ay) || 1;
  setLine(sheet, 'narrow');
  strokeLine(sheet, ax, ay, bx, by);
  arrowHead(sheet, ax, ay, (ax - bx) / length, (ay - by) / length);
  arrowHead(sheet, bx, by, (bx - ax) / length, (by - ay) / length);
  letter(sheet, lengthText(Math.hypot(points[1].x - points[0].x, points[1].y - points[0].y)), (ax + bx) / 2, (ay + by) / 2 - 10, 'center');
}

function drawToolFromAbove(sheet, model, view, last) {
  var x = sheet.x(model.moves.x[last]);
  var y = sheet.y(model.moves.y[last]);
  var radius = Math.max(4, (model.cutWidth / 2) * view.scale);
  sheet.ctx.fillStyle = sheet.look.paper;
  sheet.ctx.globalAlpha = 0.75;
  sheet.ctx.beginPath();
  sheet.ctx.arc(x, y, radius, 0, 2 * Math.PI);
  sheet.ctx.fill();
  sheet.ctx.globalAlpha = 1;
  setLine(sheet, 'edge');
  sheet.ctx.stroke();
  setLine(sheet, 'narrow');
  strokeLine(sheet, x - radius - 12, y, x - radius, y);
  strokeLine(sheet, x + radius, y, x + radius + 12, y);
  strokeLine(sheet, x, y - radius - 12, x, y - radius);
  strokeLine(sheet, x, y + radius, x, y + radius + 12);
}

/** Seen from the side, along y: the path at its heights, which are drawn larger than lengths by a factor that is stated. */
function drawSide(sheet, model, view, last) {
  var wood = model.stock.z;
  var moves = model.moves;
  var scale = (sheet.height - 72) / (model.heights[1] - model.heights[0] || 1);
  sheet.x = function (x) { return (x - view.x) * view.scale + sheet.width / 2; };
  sheet.y = function (z) { return 40 + (model.heights[1] - z) * scale; };
  var window_ = {
    minX: view.x - sheet.width / 2 / view.scale, maxX: view.x + sheet.width / 2 / view.scale, minY: -Infinity, maxY: Infinity,
  };
  var left = sheet.x(model.stock.x[0]), right = sheet.x(model.stock.x[1]);
  var top = sheet.y(wood[1]), bottom = sheet.y(wood[0]);
  setLine(sheet, 'before');
  sheet.ctx.strokeRect(left, top, right - left, bottom - top);
  drawPath(sheet, model, moves.x, moves.z, window_, last, 'side');
  dimensionUp(sheet, bottom, top, left - DIMENSION_GAP, left, lengthText(wood[1] - wood[0]));
  if (model.deepest < 0) {
    dimensionUp(sheet, sheet.y(model.deepest), top, right + DIMENSION_GAP, right, lengthText(-model.deepest));
  }
  drawZero(sheet, sheet.x(0), sheet.y(0), 'x', 'z');
  drawToolFromSide(sheet, model, view.scale, scale, sheet.x(moves.x[last]), sheet.y(moves.z[last]));
  letter(sheet, 'heights drawn ' + (scale / view.scale).toFixed(1) + ' times as large', sheet.width - 10, sheet.height - 12, 'right');
}

/** The end of the tool over its tip: flat, round or pointed. */
function drawToolFromSide(sheet, model, scale, tall, x, z) {
  var half = Math.max(2, (model.cutWidth / 2) * scale);
  var ctx = sheet.ctx;
  ctx.beginPath();
  ctx.moveTo(x - half, -2);
  for (var k = -8; k <= 8; k += 1) {
    var away = (Math.abs(k) / 8) * model.end.usual;
    ctx.lineTo(x + (k / 8) * half, z - heightOfEnd(model.end, model.end.usual, away) * tall);
  }
  ctx.lineTo(x + half, -2);
  ctx.fillStyle = sheet.look.paper;
  ctx.globalAlpha = 0.75;
  ctx.fill();
  ctx.globalAlpha = 1;
  setLine(sheet, 'edge');
  ctx.stroke();
}

/** The scale at which the whole stock with its dimensions fits a width, within a height that a page can give. */
function fitPlan(model, width, most) {
  var stock = model.stock;
  var wide = stock.x[1] - stock.x[0] || 1, tall = stock.y[1] - stock.y[0] || 1;
  var scale = (width - 2 * ROOM.side) / wide;
  var height = Math.min(most, Math.max(280, tall * scale + ROOM.top + ROOM.bottom));
  scale = Math.min(scale, (height - ROOM.top - ROOM.bottom) / tall);
  var middle = (stock.y[0] + stock.y[1]) / 2 - (ROOM.bottom - ROOM.top) / 2 / scale;
  return { view: { x: (stock.x[0] + stock.x[1]) / 2, y: middle, scale: scale }, height: height };
}
`;
