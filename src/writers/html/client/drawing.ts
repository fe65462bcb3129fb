/**
 * Page script: lines, lettering and dimensions as a drawing office puts them on a sheet.
 *
 * Line types after ISO 128-2 (numbers from memory): edges continuous wide, dimensions continuous narrow, centre lines
 * long-dashed dotted, the stock before cutting long-dashed double-dotted. Widths are in pixels of the page.
 */
export const DRAWING_SCRIPT = `
/** Unit that lengths are shown in; what an inch is comes with the page's data. */
var shown = { unit: 'mm', mmPerInch: NaN };

/** Digits of a length in the unit chosen: thousandths of a millimetre, or a tenth of a thousandth of an inch. */
function digitsOf(mm) {
  var text = shown.unit === 'mm' ? mm.toFixed(3) : (mm / shown.mmPerInch).toFixed(4);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

function shortDigits(mm) {
  return digitsOf(mm).replace(/\\.?0+$/, '');
}

function lengthText(mm) {
  return shortDigits(mm) + ' ' + shown.unit;
}

var WIDE = 2;
var NARROW = 0.9;
var LINE_TYPES = {
  edge: { width: WIDE, dashes: [] },
  narrow: { width: NARROW, dashes: [] },
  rapid: { width: NARROW, dashes: [5, 4] },
  allowed: { width: NARROW, dashes: [1.5, 3] },
  chosen: { width: 4.5, dashes: [] },
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
  return { ctx: ctx, width: width, height: height, ratio: ratio, byPixels: true, look: look, x: null, y: null };
}

function tracePoints(sheet, points) {
  points.forEach(function (p, i) {
    if (i === 0) sheet.ctx.moveTo(sheet.x(p[0]), sheet.y(p[1]));
    else sheet.ctx.lineTo(sheet.x(p[0]), sheet.y(p[1]));
  });
}

/** Cut wood is hatched at 45 degrees, narrow, within the path that is open. */
function hatchWithin(sheet, trace, gap, strength) {
  var ctx = sheet.ctx;
  ctx.save();
  ctx.beginPath();
  trace();
  ctx.clip();
  setLine(sheet, 'narrow');
  ctx.lineWidth = 0.6;
  ctx.globalAlpha = strength;
  ctx.beginPath();
  for (var x = -sheet.height; x < sheet.width; x += gap) {
    ctx.moveTo(x, sheet.height);
    ctx.lineTo(x + sheet.height, 0);
  }
  ctx.stroke();
  ctx.restore();
}

/** A number in a ring with a line to what it speaks of. */
function balloon(sheet, x, y, toX, toY, text) {
  var ctx = sheet.ctx;
  setLine(sheet, 'narrow');
  strokeLine(sheet, x, y, toX, toY);
  ctx.fillStyle = sheet.look.ink;
  ctx.beginPath();
  ctx.arc(x, y, 2.5, 0, 2 * Math.PI);
  ctx.fill();
  ctx.fillStyle = sheet.look.paper;
  ctx.beginPath();
  ctx.arc(toX, toY, 10, 0, 2 * Math.PI);
  ctx.fill();
  ctx.stroke();
  letter(sheet, text, toX, toY, 'center');
}
`;
