/** Page script: the section drawn. Wide is what the program leaves, narrow what is meant; what is cut too much is filled. */
export const SECTION_DRAWING_SCRIPT = `
/** Differences below this are not shown as errors, mm: the digits of the written text. */
var SEEN = 0.0005;

/** Stations, as distances along the line, and heights on the sheet: both grow alike but for the factor of the heights. */
function laySection(sheet, view) {
  sheet.x = function (d) { return (d - view.d) * view.scale + sheet.width / 2; };
  sheet.y = function (z) { return sheet.height / 2 - (z - view.z) * view.scale * view.tall; };
}

/** The whole line in the width, the wood's thickness in the height, which is drawn at least as large. */
function fitSection(model, line, width, height) {
  var scale = (width - 150) / (line.length || 1);
  var wood = model.stock.z[1] - model.stock.z[0] || 1;
  return { d: line.length / 2, z: (model.stock.z[0] + model.stock.z[1]) / 2, scale: scale, tall: Math.max(1, (height - 90) / wood / scale) };
}

/** Traces heights over the stations in view; gaps where there is no wood. */
function traceHeights(sheet, section, heights) {
  var joined = false;
  for (var k = 0; k < section.stations.length; k += 1) {
    if (Number.isNaN(heights[k])) {
      joined = false;
      continue;
    }
    if (joined) sheet.ctx.lineTo(sheet.x(section.stations[k]), sheet.y(heights[k]));
    else sheet.ctx.moveTo(sheet.x(section.stations[k]), sheet.y(heights[k]));
    joined = true;
  }
}

/** Closed areas between two rows of heights, where the upper is above the lower. */
function traceBetween(sheet, section, upper, lower, wanted) {
  var n = section.stations.length;
  for (var k = 0; k < n; k += 1) {
    if (!(upper[k] > lower[k] + 1e-9) || !wanted(k)) continue;
    var e = k;
    while (e + 1 < n && upper[e + 1] > lower[e + 1] + 1e-9 && wanted(e + 1)) e += 1;
    sheet.ctx.moveTo(sheet.x(section.stations[k]), sheet.y(lower[k]));
    for (var i = k; i <= e; i += 1) sheet.ctx.lineTo(sheet.x(section.stations[i]), sheet.y(lower[i]));
    for (var j = e; j >= k; j -= 1) sheet.ctx.lineTo(sheet.x(section.stations[j]), sheet.y(upper[j]));
    sheet.ctx.closePath();
    k = e;
  }
}

/** \`now\`: heights left by what has been run so far. \`at\`: number of the station that is read off. */
function drawSection(sheet, model, section, view, now, at) {
  var ctx = sheet.ctx;
  laySection(sheet, view);
  var bottom = Float64Array.from(section.top, function (z) { return Number.isNaN(z) ? NaN : model.stock.z[0]; });
  var all = function () { return true; };
  hatchWithin(sheet, function () { traceBetween(sheet, section, now, bottom, all); }, 9, 0.4);
  ctx.lineJoin = 'miter';
  setLine(sheet, 'before');
  ctx.beginPath();
  traceHeights(sheet, section, section.top);
  traceHeights(sheet, section, bottom);
  ctx.stroke();
  setLine(sheet, 'edge');
  ctx.globalAlpha = 0.45;
  ctx.beginPath();
  traceHeights(sheet, section, section.left);
  ctx.stroke();
  ctx.globalAlpha = 1;
  ctx.beginPath();
  traceHeights(sheet, section, now);
  ctx.stroke();
  setLine(sheet, 'narrow');
  ctx.beginPath();
  traceHeights(sheet, section, section.meant);
  ctx.stroke();
  drawErrors(sheet, model, section);
  var left = sheet.x(0), right = sheet.x(section.line.length);
  dimensionUp(sheet, sheet.y(model.stock.z[0]), sheet.y(model.stock.z[1]), left - DIMENSION_GAP, left, lengthText(model.stock.z[1] - model.stock.z[0]));
  var lowest = lowestOf(section.left);
  if (lowest < section.highest - 1e-9) {
    dimensionUp(sheet, sheet.y(lowest), sheet.y(section.highest), right + DIMENSION_GAP, right, lengthText(section.highest - lowest));
  }
  letter(sheet, 'A', Math.max(14, left - 60), 58, 'center');
  letter(sheet, 'A', Math.min(sheet.width - 14, right + 60), 58, 'center');
  if (at >= 0) drawReading(sheet, section, at);
  letter(sheet, view.tall > 1.0001 ? 'heights drawn ' + view.tall.toFixed(1) + ' times as large' : 'heights and lengths alike', sheet.width - 10, sheet.height - 12, 'right');
}

function lowestOf(heights) {
  var low = Infinity;
  for (var k = 0; k < heights.length; k += 1) if (heights[k] < low) low = heights[k];
  return low;
}

/** Filled: cut below what is meant, where that is not allowed. Dotted outline: allowed. Close hatching: left standing. */
function drawErrors(sheet, model, section) {
  var ctx = sheet.ctx;
  if (section.isOutside === undefined) markOutside(model, section);
  ctx.fillStyle = sheet.look.ink;
  ctx.beginPath();
  traceBetween(sheet, section, section.meant, section.left, function (k) {
    return section.isOutside[k] === 1 && section.meant[k] - section.left[k] > SEEN;
  });
  ctx.fill();
  hatchWithin(sheet, function () {
    traceBetween(sheet, section, section.left, section.meant, function (k) { return section.left[k] - section.meant[k] > SEEN; });
  }, 3, 0.9);
  setLine(sheet, 'allowed');
  ctx.beginPath();
  traceBetween(sheet, section, section.meant, section.left, function (k) {
    return section.isOutside[k] === 0 && section.meant[k] - section.left[k] > SEEN;
  });
  ctx.stroke();
}

/** At which stations less is meant to be cut, and no cut may reach either: there what is missing was cut too much. */
function markOutside(model, section) {
  section.isOutside = Uint8Array.from(section.stations, function (d, k) {
    if (!(section.meant[k] > section.left[k] + 1e-9)) return 0;
    var x = section.line.ax + d * section.line.ux, y = section.line.ay + d * section.line.uy;
    return section.meant[k] < section.top[k] - 1e-9 || outsideOf(model, x, y) > 0 ? 1 : 0;
  });
}

function drawReading(sheet, section, at) {
  var x = sheet.x(section.stations[at]);
  setLine(sheet, 'centre');
  strokeLine(sheet, x, 24, x, sheet.height - 24);
  [section.meant[at], section.left[at]].forEach(function (z) {
    if (Number.isNaN(z)) return;
    arrowHead(sheet, x, sheet.y(z), 0, 1);
  });
}
`;
