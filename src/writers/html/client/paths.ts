/**
 * Page script: the path of the tool on a sheet. A path of few moves in view is drawn as lines of true weight. Of a long one every
 * pixel keeps the number of the first move that passes it: then any moment of the program is one look at every pixel, however many
 * moves there are.
 */
export const PATHS_SCRIPT = `
/** More moves in view than this are drawn by pixels. */
var MOST_LINES = 6000;
var UNTOUCHED = 0xffffffff;

/** Numbers of the chunks of moves that can be seen through a window of the plan, as runs of moves; the side view sees along y. */
function runsInView(model, window_) {
  var runs = [];
  var boxes = model.chunks;
  for (var k = 0; 4 * k < boxes.length; k += 1) {
    if (boxes[4 * k] > window_.maxX || boxes[4 * k + 2] < window_.minX) continue;
    if (boxes[4 * k + 1] > window_.maxY || boxes[4 * k + 3] < window_.minY) continue;
    runs.push([k * CHUNK + 1, Math.min(model.moves.count, (k + 1) * CHUNK)]);
  }
  return runs;
}

function movesIn(runs) {
  return runs.reduce(function (sum, run) { return sum + run[1] - run[0] + 1; }, 0);
}

/** The wanted ones of the moves of some runs between two numbers, along two columns of places. */
function traceMoves(sheet, places, heights, runs, first, last, wanted) {
  var joined = -1;
  sheet.ctx.beginPath();
  runs.forEach(function (run) {
    for (var i = Math.max(first, run[0]); i <= Math.min(last, run[1]); i += 1) {
      if (!wanted(i)) continue;
      if (joined !== i - 1) sheet.ctx.moveTo(sheet.x(places[i - 1]), sheet.y(heights[i - 1]));
      sheet.ctx.lineTo(sheet.x(places[i]), sheet.y(heights[i]));
      joined = i;
    }
  });
  sheet.ctx.stroke();
}

function drawLines(sheet, moves, places, heights, runs, first, last, strength) {
  if (last < first) return;
  sheet.ctx.globalAlpha = strength;
  sheet.ctx.lineCap = 'round';
  sheet.ctx.lineJoin = 'round';
  setLine(sheet, 'rapid');
  traceMoves(sheet, places, heights, runs, first, last, function (i) { return moves.kind[i] === RAPID; });
  setLine(sheet, 'narrow');
  for (var weight = 0; weight <= HEAVIEST; weight += 1) {
    if (moves.weights[weight] === 0) continue;
    sheet.ctx.lineWidth = 0.7 + 0.4 * weight;
    traceMoves(sheet, places, heights, runs, first, last, function (i) {
      return moves.kind[i] !== RAPID && moves.weight[i] === weight;
    });
  }
  sheet.ctx.lineCap = 'butt';
  sheet.ctx.globalAlpha = 1;
}

/** What has been run is drawn fully, what is still to come faintly. */
function drawPath(sheet, model, places, heights, window_, last, key) {
  var runs = runsInView(model, window_);
  if (movesIn(runs) <= MOST_LINES || !sheet.byPixels) {
    drawLines(sheet, model.moves, places, heights, runs, last + 1, model.moves.count, 0.3);
    drawLines(sheet, model.moves, places, heights, runs, 1, last, 1);
    return;
  }
  var touched = touchedBy(sheet, model, places, heights, runs, key);
  paintTouched(sheet, touched, last);
}

/** The first move to pass each pixel; kept until the view changes. */
function touchedBy(sheet, model, places, heights, runs, key) {
  var kept = model.touched[key];
  var view = [sheet.width, sheet.height, sheet.ratio, sheet.x(0), sheet.x(1), sheet.y(0), sheet.y(1)].join(' ');
  if (kept !== undefined && kept.view === view) return kept;
  var width = Math.round(sheet.width * sheet.ratio), height = Math.round(sheet.height * sheet.ratio);
  var first = new Uint32Array(width * height).fill(UNTOUCHED);
  var zeroX = sheet.x(0) * sheet.ratio, scaleX = (sheet.x(1) - sheet.x(0)) * sheet.ratio;
  var zeroY = sheet.y(0) * sheet.ratio, scaleY = (sheet.y(1) - sheet.y(0)) * sheet.ratio;
  var weight = model.moves.weight;
  runs.forEach(function (run) {
    for (var i = run[0]; i <= run[1]; i += 1) {
      if (weight[i] === 0) continue;
      touchLine(first, width, height, i,
        zeroX + scaleX * places[i - 1], zeroY + scaleY * heights[i - 1], zeroX + scaleX * places[i], zeroY + scaleY * heights[i]);
    }
  });
  kept = { view: view, width: width, height: height, first: first, canvas: null, image: null };
  model.touched[key] = kept;
  return kept;
}

/** Walks over the pixels of a line, in steps of a pixel along its longer side. */
function touchLine(first, width, height, number, x0, y0, x1, y1) {
  var dx = x1 - x0, dy = y1 - y0;
  var steps = Math.ceil(Math.max(Math.abs(dx), Math.abs(dy)));
  // Only the part of it that can lie on the sheet.
  var from = 0, to = 1;
  if (dx !== 0) {
    from = Math.max(from, Math.min(-x0 / dx, (width - x0) / dx));
    to = Math.min(to, Math.max(-x0 / dx, (width - x0) / dx));
  } else if (x0 < 0 || x0 >= width) return;
  if (dy !== 0) {
    from = Math.max(from, Math.min(-y0 / dy, (height - y0) / dy));
    to = Math.min(to, Math.max(-y0 / dy, (height - y0) / dy));
  } else if (y0 < 0 || y0 >= height) return;
  for (var k = Math.floor(from * steps); k <= to * steps; k += 1) {
    var t = steps === 0 ? 0 : k / steps;
    var x = Math.floor(x0 + t * dx), y = Math.floor(y0 + t * dy);
    if (x < 0 || y < 0 || x >= width || y >= height) continue;
    var at = y * width + x;
    if (first[at] > number) first[at] = number;
  }
}

function paintTouched(sheet, touched, last) {
  if (touched.canvas === null) {
    touched.canvas = document.createElement('canvas');
    touched.canvas.width = touched.width;
    touched.canvas.height = touched.height;
    touched.image = touched.canvas.getContext('2d').createImageData(touched.width, touched.height);
    touched.pixels = new Uint32Array(touched.image.data.buffer);
  }
  var ink = pixelOf(sheet.look.ink, 255), faint = pixelOf(sheet.look.ink, 70);
  var first = touched.first, pixels = touched.pixels;
  for (var i = 0; i < first.length; i += 1) pixels[i] = first[i] <= last ? ink : first[i] === UNTOUCHED ? 0 : faint;
  touched.canvas.getContext('2d').putImageData(touched.image, 0, 0);
  sheet.ctx.drawImage(touched.canvas, 0, 0, sheet.width, sheet.height);
}

/** A colour written as six hexadecimal digits, as a pixel of an image on a machine with its low byte first. */
function pixelOf(colour, alpha) {
  var value = parseInt(colour.slice(1), 16);
  return ((alpha << 24) | ((value & 255) << 16) | (value & 0xff00) | (value >> 16)) >>> 0;
}
`;
