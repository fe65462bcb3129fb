/**
 * Page script, second piece: one program drawn on two canvases, from above and from the side.
 *
 * Line types after ISO 128-2 (numbers from memory): edges continuous wide, dimensions continuous narrow, centre lines
 * long-dashed dotted, the stock before cutting long-dashed double-dotted. Widths are in pixels of the page.
 */
export const DRAWING_SCRIPT = `
var WIDE = 2;
var NARROW = 0.9;
var LINE_TYPES = {
  edge: { width: WIDE, dashes: [] },
  narrow: { width: NARROW, dashes: [] },
  rapid: { width: NARROW, dashes: [5, 4] },
  centre: { width: NARROW, dashes: [16, 3, 2, 3] },
  before: { width: NARROW, dashes: [16, 3, 2, 3, 2, 3] },
};
var DIMENSION_GAP = 26;
var LETTERS = '12px system-ui, sans-serif';

function setLine(sheet, name) {
  var type = LINE_TYPES[name];
  sheet.ctx.strokeStyle = sheet.look.ink;
  sheet.ctx.lineWidth = type.width;
  sheet.ctx.setLineDash(type.dashes);
}

function strokeLine(sheet, x0, y0, x1, y1) {
  sheet.ctx.beginPath();
  sheet.ctx.moveTo(x0, y0);
  sheet.ctx.lineTo(x1, y1);
  sheet.ctx.stroke();
}

/** Lettering with the paper's colour around it, so that lines under it do not cut it. */
function letter(sheet, text, x, y, align) {
  var ctx = sheet.ctx;
  ctx.font = LETTERS;
  ctx.textAlign = align;
  ctx.textBaseline = 'middle';
  ctx.setLineDash([]);
  ctx.lineJoin = 'round';
  ctx.lineWidth = 4;
  ctx.strokeStyle = sheet.look.paper;
  ctx.strokeText(text, x, y);
  ctx.fillStyle = sheet.look.ink;
  ctx.fillText(text, x, y);
}

function arrowHead(sheet, x, y, dx, dy) {
  var ctx = sheet.ctx;
  ctx.fillStyle = sheet.look.ink;
  ctx.beginPath();
  ctx.moveTo(x, y);
  ctx.lineTo(x - dx * 9 - dy * 2, y - dy * 9 + dx * 2);
  ctx.lineTo(x - dx * 9 + dy * 2, y - dy * 9 - dx * 2);
  ctx.closePath();
  ctx.fill();
}

/** Dimension along the sheet's width: between two places, at a height, measured from edges that end at another. */
function dimensionAcross(sheet, x0, x1, y, from, text) {
  setLine(sheet, 'narrow');
  var beyond = y > from ? 4 : -4;
  strokeLine(sheet, x0, from + beyond / 2, x0, y + beyond);
  strokeLine(sheet, x1, from + beyond / 2, x1, y + beyond);
  strokeLine(sheet, x0, y, x1, y);
  arrowHead(sheet, x0, y, -1, 0);
  arrowHead(sheet, x1, y, 1, 0);
  letter(sheet, text, (x0 + x1) / 2, y - 9, 'center');
}

function dimensionUp(sheet, y0, y1, x, from, text) {
  setLine(sheet, 'narrow');
  var beyond = x > from ? 4 : -4;
  strokeLine(sheet, from + beyond / 2, y0, x + beyond, y0);
  strokeLine(sheet, from + beyond / 2, y1, x + beyond, y1);
  strokeLine(sheet, x, y0, x, y1);
  if (Math.abs(y1 - y0) > 20) {
    arrowHead(sheet, x, Math.min(y0, y1), 0, -1);
    arrowHead(sheet, x, Math.max(y0, y1), 0, 1);
  } else {
    arrowHead(sheet, x, Math.min(y0, y1), 0, 1);
    arrowHead(sheet, x, Math.max(y0, y1), 0, -1);
  }
  sheet.ctx.save();
  // A dimension too short for its lettering has it on the side away from the part.
  sheet.ctx.translate(x > from ? x + 10 : x - 10, (y0 + y1) / 2);
  sheet.ctx.rotate(-Math.PI / 2);
  letter(sheet, text, 0, 0, 'center');
  sheet.ctx.restore();
}

/** The point that is touched off: a ring, a dot and two short axes that say which way x and y (or z) grow. */
function drawZero(sheet, x, y, onward, upward) {
  var ctx = sheet.ctx;
  setLine(sheet, 'narrow');
  strokeLine(sheet, x, y, x + 30, y);
  strokeLine(sheet, x, y, x, y - 30);
  arrowHead(sheet, x + 30, y, 1, 0);
  arrowHead(sheet, x, y - 30, 0, -1);
  ctx.fillStyle = sheet.look.paper;
  ctx.beginPath();
  ctx.arc(x, y, 6, 0, 2 * Math.PI);
  ctx.fill();
  ctx.lineWidth = WIDE;
  ctx.stroke();
  ctx.fillStyle = sheet.look.ink;
  ctx.beginPath();
  ctx.arc(x, y, 2, 0, 2 * Math.PI);
  ctx.fill();
  letter(sheet, onward, x + 38, y, 'center');
  letter(sheet, upward, x, y - 38, 'center');
}

function startSheet(canvas, width, height, ratio, look) {
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
  var ctx = canvas.getContext('2d');
  if (ctx === null) throw new Error('this browser draws no canvas');
  ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
  ctx.fillStyle = look.paper;
  ctx.fillRect(0, 0, width, height);
  return { ctx: ctx, width: width, height: height, look: look, x: null, y: null };
}

function tracePoints(sheet, points) {
  points.forEach(function (p, i) {
    if (i === 0) sheet.ctx.moveTo(sheet.x(p[0]), sheet.y(p[1]));
    else sheet.ctx.lineTo(sheet.x(p[0]), sheet.y(p[1]));
  });
}

/** The wanted ones of the moves from one number to another, along two columns of places. */
function traceMoves(sheet, places, heights, first, last, wanted) {
  var across = sheet.x;
  var up = sheet.y;
  var joined = false;
  sheet.ctx.beginPath();
  for (var i = first; i <= last; i += 1) {
    if (!wanted(i)) {
      joined = false;
      continue;
    }
    if (!joined) sheet.ctx.moveTo(across(places[i - 1]), up(heights[i - 1]));
    sheet.ctx.lineTo(across(places[i]), up(heights[i]));
    joined = true;
  }
  sheet.ctx.stroke();
}

function drawMoves(sheet, moves, places, heights, first, last, strength) {
  if (last < first) return;
  sheet.ctx.globalAlpha = strength;
  sheet.ctx.lineCap = 'round';
  sheet.ctx.lineJoin = 'round';
  setLine(sheet, 'rapid');
  traceMoves(sheet, places, heights, first, last, function (i) {
    return moves.kind[i] === RAPID;
  });
  setLine(sheet, 'narrow');
  for (var weight = 0; weight <= HEAVIEST; weight += 1) {
    sheet.ctx.lineWidth = 0.7 + 0.4 * weight;
    traceMoves(sheet, places, heights, first, last, function (i) {
      return moves.kind[i] !== RAPID && moves.weight[i] === weight;
    });
  }
  sheet.ctx.lineCap = 'butt';
  sheet.ctx.globalAlpha = 1;
}

/** The wood the cut takes, at its true width, as a tint under the lines. */
function drawWidth(sheet, moves, last, width) {
  sheet.ctx.save();
  sheet.ctx.globalAlpha = 0.16;
  sheet.ctx.lineCap = 'round';
  sheet.ctx.lineJoin = 'round';
  sheet.ctx.setLineDash([]);
  sheet.ctx.strokeStyle = sheet.look.ink;
  sheet.ctx.lineWidth = Math.max(0.5, width);
  traceMoves(sheet, moves.x, moves.y, 1, last, function (i) {
    return moves.weight[i] > 0;
  });
  sheet.ctx.restore();
}

function drawIntent(sheet, program) {
  program.shapes.forEach(function (shape) {
    setLine(sheet, shape.marked ? 'narrow' : 'edge');
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

/** Seen from above. */
function drawPlan(sheet, program, view, last) {
  var stock = program.stock;
  sheet.x = function (x) { return (x - view.x) * view.scale + sheet.width / 2; };
  sheet.y = function (y) { return sheet.height / 2 - (y - view.y) * view.scale; };
  var left = sheet.x(stock.x[0]);
  var right = sheet.x(stock.x[1]);
  var top = sheet.y(stock.y[1]);
  var bottom = sheet.y(stock.y[0]);
  setLine(sheet, 'before');
  sheet.ctx.strokeRect(left, top, right - left, bottom - top);
  if (program.centrelineY !== null) {
    setLine(sheet, 'centre');
    strokeLine(sheet, left - 10, sheet.y(program.centrelineY), right + 10, sheet.y(program.centrelineY));
  }
  drawWidth(sheet, program.moves, last, program.cutWidth * view.scale);
  drawIntent(sheet, program);
  drawMoves(sheet, program.moves, program.moves.x, program.moves.y, last + 1, program.moves.count, 0.3);
  drawMoves(sheet, program.moves, program.moves.x, program.moves.y, 1, last, 1);
  dimensionAcross(sheet, left, right, bottom + DIMENSION_GAP, bottom, lengthText(stock.x[1] - stock.x[0]));
  dimensionUp(sheet, bottom, top, left - DIMENSION_GAP, left, lengthText(stock.y[1] - stock.y[0]));
  drawZero(sheet, sheet.x(0), sheet.y(0), 'x', 'y');
  drawToolFromAbove(sheet, program, view, last);
}

function drawToolFromAbove(sheet, program, view, last) {
  var x = sheet.x(program.moves.x[last]);
  var y = sheet.y(program.moves.y[last]);
  var radius = Math.max(4, (program.cutWidth / 2) * view.scale);
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

/** The section along x keeps to what the plan shows. */
function alongView(view) {
  return { axis: 'x', middle: view.x, scale: view.scale };
}

/** The section across y always shows the whole width. */
function acrossView(program, width) {
  var side = program.stock.y;
  return { axis: 'y', middle: (side[0] + side[1]) / 2, scale: (width - 120) / (side[1] - side[0] || 1) };
}

/** Seen from the side; heights are drawn larger than lengths, by a factor that is stated. */
function drawSection(sheet, program, view, last) {
  var wood = program.stock.z;
  var moves = program.moves;
  var places = moves[view.axis];
  var span = program.heights[1] - program.heights[0];
  var scale = (sheet.height - 72) / (span || 1);
  sheet.x = function (place) { return (place - view.middle) * view.scale + sheet.width / 2; };
  sheet.y = function (z) { return 40 + (program.heights[1] - z) * scale; };
  var left = sheet.x(program.stock[view.axis][0]);
  var right = sheet.x(program.stock[view.axis][1]);
  var top = sheet.y(wood[1]);
  var bottom = sheet.y(wood[0]);
  drawHatching(sheet, left, right, top, bottom);
  setLine(sheet, 'before');
  sheet.ctx.strokeRect(left, top, right - left, bottom - top);
  drawMoves(sheet, moves, places, moves.z, last + 1, moves.count, 0.3);
  drawMoves(sheet, moves, places, moves.z, 1, last, 1);
  dimensionUp(sheet, bottom, top, left - DIMENSION_GAP, left, lengthText(wood[1] - wood[0]));
  if (program.deepest < 0) {
    dimensionUp(sheet, sheet.y(program.deepest), top, right + DIMENSION_GAP, right, lengthText(-program.deepest));
  }
  drawZero(sheet, sheet.x(0), sheet.y(0), view.axis, 'z');
  drawToolFromSide(sheet, program, view, places[last], moves.z[last]);
  letter(sheet, 'heights drawn ' + (scale / view.scale).toFixed(1) + ' times as large', sheet.width - 10, sheet.height - 12, 'right');
}

/** Cut wood is hatched at 45 degrees, narrow. */
function drawHatching(sheet, left, right, top, bottom) {
  var ctx = sheet.ctx;
  ctx.save();
  ctx.beginPath();
  ctx.rect(left, top, right - left, bottom - top);
  ctx.clip();
  setLine(sheet, 'narrow');
  ctx.lineWidth = 0.6;
  ctx.globalAlpha = 0.35;
  ctx.beginPath();
  var from = Math.max(left, 0) - (bottom - top);
  var to = Math.min(right, sheet.width);
  var first = left + Math.floor((from - left) / 9) * 9;
  for (var x = first; x < to; x += 9) {
    ctx.moveTo(x, bottom);
    ctx.lineTo(x + (bottom - top), top);
  }
  ctx.stroke();
  ctx.restore();
}

function drawToolFromSide(sheet, program, view, place, height) {
  var x = sheet.x(place);
  var z = sheet.y(height);
  var half = Math.max(2, (program.cutWidth / 2) * view.scale);
  sheet.ctx.fillStyle = sheet.look.paper;
  sheet.ctx.globalAlpha = 0.75;
  sheet.ctx.fillRect(x - half, 0, 2 * half, z);
  sheet.ctx.globalAlpha = 1;
  setLine(sheet, 'edge');
  sheet.ctx.beginPath();
  sheet.ctx.moveTo(x - half, -2);
  sheet.ctx.lineTo(x - half, z);
  sheet.ctx.lineTo(x + half, z);
  sheet.ctx.lineTo(x + half, -2);
  sheet.ctx.stroke();
}

/** The scale at which the whole stock with its dimensions fits a width, and the middle of the stock. */
function wholeView(program, width) {
  var stock = program.stock;
  return {
    x: (stock.x[0] + stock.x[1]) / 2,
    y: (stock.y[0] + stock.y[1]) / 2,
    scale: (width - 120) / (stock.x[1] - stock.x[0] || 1),
  };
}

/** Height a plan wants at a scale, within what a page can give; the scale follows when it cannot. */
function fitPlan(program, width, most) {
  var view = wholeView(program, width);
  var tall = program.stock.y[1] - program.stock.y[0];
  var height = Math.min(most, Math.max(220, tall * view.scale + 110));
  view.scale = Math.min(view.scale, (height - 110) / (tall || 1));
  return { view: view, height: height };
}
`;
