/**
 * Page script: a section through any line of the plan. At every station stand the stock's top, the height meant and the height
 * left; the figures are measured as the proof measures them: sideways to the nearest edge meant, with the thickest end the tool
 * may have for what is cut too much and the thinnest for what is left.
 */
export const SECTION_SCRIPT = `
/** A station stands this far to either side of every wall, mm, so that no wall lies between two of them unseen. */
var BESIDE_WALL = 1e-6;
/** A path this little above a floor counts as at full depth in plan: how high the floor is left is a figure of its own. */
var FULL_DEPTH = 0.03;

function lineOfPlan(ax, ay, bx, by) {
  var length = Math.hypot(bx - ax, by - ay);
  var still = length < 1e-9;
  return { ax: ax, ay: ay, bx: bx, by: by, length: length, ux: still ? 1 : (bx - ax) / length, uy: still ? 0 : (by - ay) / length };
}

/** Along a line that more moves meet than this, walls are seen only to the distance between stations. */
var MOST_WALLS = 4000;
/** Along a line that more moves meet than this, the section is drawn but not measured. */
var MOST_MEASURED = 60000;
/** Parts of a line that each know the moves near them. */
var PARTS = 300;

function partsOf(model, line, near, reach) {
  var parts = Array.from({ length: PARTS }, function () { return []; });
  near.forEach(function (i) {
    var stretch = stretchNear(model.moves, i, line, reach);
    if (stretch === null) return;
    var last = Math.min(PARTS - 1, Math.floor((stretch[1] / line.length) * PARTS));
    for (var k = Math.max(0, Math.floor((stretch[0] / line.length) * PARTS)); k <= last; k += 1) parts[k].push(i);
  });
  return parts;
}

function nearStation(section, k) {
  return section.parts[Math.max(0, Math.min(PARTS - 1, Math.floor((section.stations[k] / section.line.length) * PARTS)))];
}

/** Distances from the line's start at which to look: evenly, and where it meets edges that are meant or cut. */
function stationsOf(model, line, near, count) {
  var stations = [];
  var i;
  for (i = 0; i <= count; i += 1) stations.push((line.length * i) / count);
  function beside(d) {
    if (d > 0 && d < line.length) stations.push(d - BESIDE_WALL, d + BESIDE_WALL);
  }
  meetingsWith(model.stockShape.sides, line.ax, line.ay, line.ux, line.uy).forEach(beside);
  model.cuts.forEach(function (cut) {
    [cut.shape.sides, cut.allowedShape.sides, cut.leftShape.sides].forEach(function (sides) {
      meetingsWith(sides, line.ax, line.ay, line.ux, line.uy).forEach(beside);
    });
  });
  if (near.length > MOST_WALLS) return Float64Array.from(stations).sort();
  [model.end.least, model.end.usual, model.end.most].forEach(function (r) {
    wallsOf(model, line, near, r).forEach(beside);
  });
  return Float64Array.from(stations).sort();
}

/** Where what the moves take begins and ends along a line; not where something at least as low goes on to either side. */
function wallsOf(model, line, near, r) {
  var walls = [];
  var open = [];
  near.forEach(function (i) {
    var stretch = stretchNear(model.moves, i, line, r);
    if (stretch === null) return;
    stretch.forEach(function (d) {
      if (!open.some(function (o) { return d > o[0] && d < o[1]; })) walls.push(d);
    });
    var rest = open.filter(function (o) { return o[1] < stretch[0] || o[0] > stretch[1]; });
    var joined = open.filter(function (o) { return o[1] >= stretch[0] && o[0] <= stretch[1]; }).concat([stretch]);
    open = rest.concat([[
      Math.min.apply(null, joined.map(function (o) { return o[0]; })),
      Math.max.apply(null, joined.map(function (o) { return o[1]; })),
    ]]);
  });
  return walls;
}

/** Number of the first station at or past a distance. */
function firstStation(stations, d) {
  var low = 0, high = stations.length;
  while (low < high) {
    var middle = (low + high) >> 1;
    if (stations[middle] < d) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Lowers the heights at the stations to what those of the moves leave that lie between two numbers. */
function carve(model, line, stations, heights, near, r, first, last) {
  var moves = model.moves;
  for (var n = 0; n < near.length; n += 1) {
    var i = near[n];
    if (i < first || i > last) continue;
    var stretch = stretchNear(moves, i, line, r);
    if (stretch === null) continue;
    var tip = model.end.kind === 'beam' ? -Infinity : Math.min(moves.z[i - 1], moves.z[i]);
    for (var k = firstStation(stations, stretch[0]); k < stations.length && stations[k] <= stretch[1]; k += 1) {
      if (tip >= heights[k]) continue;
      var z = leftBy(model, i, line.ax + stations[k] * line.ux, line.ay + stations[k] * line.uy, r);
      if (z < heights[k]) heights[k] = z;
    }
  }
}

/** The deepest moves come first: what they leave spares looking at most of the others. */
function lowestFirst(moves, near) {
  function high(i) { return Math.max(moves.z[i - 1], moves.z[i]); }
  return near.sort(function (a, b) { return high(a) - high(b) || a - b; });
}

/** Everything at the stations of a line. Heights beside the stock are NaN. */
function sectionOf(model, line, count) {
  var near = movesNear(model, line, 4 * model.end.most);
  var isRough = near.length > MOST_MEASURED;
  if (!isRough) near = lowestFirst(model.moves, near);
  var stations = stationsOf(model, line, near, count);
  var top = new Float64Array(stations.length);
  var meant = new Float64Array(stations.length);
  stations.forEach(function (d, k) {
    var x = line.ax + d * line.ux, y = line.ay + d * line.uy;
    var height = topAt(model, x, y);
    top[k] = height === null ? NaN : height;
    meant[k] = height === null ? NaN : meantAt(model, x, y, height);
  });
  function leftWith(r, last) {
    var heights = Float64Array.from(top);
    carve(model, line, stations, heights, near, r, 0, last);
    for (var k = 0; k < heights.length; k += 1) heights[k] = Math.max(heights[k], model.stock.z[0]);
    return heights;
  }
  var section = {
    line: line, stations: stations, near: near, parts: partsOf(model, line, near, 4 * model.end.most), highest: model.highest, top: top, meant: meant, leftWith: leftWith,
    left: leftWith(model.end.usual, model.moves.count),
    isRough: isRough, most: null, least: null, checkpoints: null,
  };
  section.most = isRough ? section.left : leftWith(model.end.most, model.moves.count);
  section.least = isRough ? section.left : leftWith(model.end.least, model.moves.count);
  return section;
}

/** With fewer moves near a line, what is left at any moment of the program is reckoned from its start. */
var FEW_NEAR = 2000;
var CHECKPOINTS = 32;

/** What is left along a section after some of the moves: from the checkpoint before, so that going back is as quick as going on. */
function leftUpTo(model, section, move) {
  if (section.near.length < FEW_NEAR) return section.leftWith(model.end.usual, move);
  if (section.checkpoints === null) section.checkpoints = checkpointsOf(model, section);
  var part = Math.min(CHECKPOINTS - 1, Math.floor((move / model.moves.count) * CHECKPOINTS));
  return carvedOn(model, section, section.checkpoints[part], checkpointMove(model, part), move);
}

function checkpointMove(model, part) {
  return Math.floor((part * model.moves.count) / CHECKPOINTS);
}

function checkpointsOf(model, section) {
  var points = [section.leftWith(model.end.usual, 0)];
  for (var part = 1; part < CHECKPOINTS; part += 1) {
    points.push(carvedOn(model, section, points[part - 1], checkpointMove(model, part - 1), checkpointMove(model, part)));
  }
  return points;
}

/** Heights after the moves past one number up to another. */
function carvedOn(model, section, before, from, to) {
  var heights = before.slice();
  carve(model, section.line, section.stations, heights, section.near, model.end.usual, from + 1, to);
  for (var k = 0; k < heights.length; k += 1) heights[k] = Math.max(heights[k], model.stock.z[0]);
  return heights;
}

function newFigure() {
  return { value: -Infinity, x: 0, y: 0, z: 0 };
}

function noteFigure(figure, value, x, y, z) {
  if (value <= figure.value) return;
  figure.value = value;
  figure.x = x;
  figure.y = y;
  figure.z = z;
}

/** Largest errors along a section: beyond the walls, short of them, below the floors, above them. -Infinity: none to measure. */
function figuresOf(model, section) {
  var figures = { over: newFigure(), under: newFigure(), deep: newFigure(), high: newFigure() };
  if (section.isRough) return figures;
  section.stations.forEach(function (d, k) {
    if (Number.isNaN(section.top[k])) return;
    var x = section.line.ax + d * section.line.ux, y = section.line.ay + d * section.line.uy;
    if (section.most[k] < section.top[k] - 1e-6) noteOver(model, figures, section, k, x, y);
    model.cuts.forEach(function (cut) {
      if (inBox(cut.box, x, y, 0.1)) noteCut(model, figures, section, cut, k, x, y);
    });
  });
  return figures;
}

/** A place that was cut: how far beyond what may be; within it, how near its edge the cut comes is not asked. */
function noteOver(model, figures, section, k, x, y) {
  var outside = outsideOf(model, x, y);
  if (outside < Infinity) noteFigure(figures.over, outside, x, y, section.most[k]);
}

function noteCut(model, figures, section, cut, k, x, y) {
  if (cut.kind === 'line') return;
  if (cut.kind === 'separate') {
    if (distanceToSides(cut.shape.sides, x, y) > 2 * BESIDE_WALL || tabOver(cut, x, y) !== undefined) return;
    noteFigure(figures.under, gapTo(model, nearStation(section, k), cut, x, y), x, y, section.least[k]);
    return;
  }
  if (!holds(cut.shape, x, y)) return;
  noteFloor(model, figures, section, cut, k, x, y);
  if (cut.kind === 'surface' || (cut.left.length > 0 && holds(cut.leftShape, x, y))) return;
  if (isCleared(model, cut, section.least[k], x, y)) noteFigure(figures.under, 0, x, y, section.least[k]);
  else noteFigure(figures.under, gapTo(model, nearStation(section, k), cut, x, y), x, y, section.least[k]);
}

/** Whether the thinnest end has been over a place at full depth: then nothing is left there in plan. */
function isCleared(model, cut, left, x, y) {
  var low = cut.through ? model.stock.z[0] : lowestFor(cut.floor, x, y, 2 * model.end.most);
  return left <= low + FULL_DEPTH;
}

/** Distance from a place to the nearest part of the path at a cut's full depth, less the thinnest end's radius. */
function gapTo(model, near, cut, x, y) {
  var moves = model.moves, end = model.end;
  var floor = cut.through ? { kind: 'plane', z: model.stock.z[0] } : cut.floor;
  var least = Infinity;
  for (var n = 0; n < near.length; n += 1) {
    var i = near[n];
    var part = [0, 1];
    if (end.kind !== 'beam') {
      part = partBelow(
        moves.z[i - 1] + tipOf(end) - lowestFor(floor, moves.x[i - 1], moves.y[i - 1], end.most),
        moves.z[i] + tipOf(end) - lowestFor(floor, moves.x[i], moves.y[i], end.most),
      );
    }
    if (part === null) continue;
    var x0 = moves.x[i - 1], y0 = moves.y[i - 1], dx = moves.x[i] - x0, dy = moves.y[i] - y0;
    least = Math.min(least, distanceTo(x, y, x0 + part[0] * dx, y0 + part[0] * dy, x0 + part[1] * dx, y0 + part[1] * dy));
  }
  return least - end.least;
}

/** Part of a move, as shares of it, over which its height above a floor counts as none; null where none does. */
function partBelow(first, last) {
  if (first <= FULL_DEPTH && last <= FULL_DEPTH) return [0, 1];
  if (first > FULL_DEPTH && last > FULL_DEPTH) return null;
  var t = (FULL_DEPTH - first) / (last - first);
  return first <= FULL_DEPTH ? [0, t] : [t, 1];
}

/** Distance of a place from a straight stretch. */
function distanceTo(x, y, ax, ay, bx, by) {
  var square = (bx - ax) * (bx - ax) + (by - ay) * (by - ay);
  var share = square === 0 ? 0 : ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / square;
  var t = Math.max(0, Math.min(1, share));
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}

/** From the tip of a drill up to its full diameter. */
function tipOf(end) {
  return end.kind === 'drill' ? end.usual * slopeOf(end) : 0;
}

/** Too deep, or too high over what the thickest end could have reached from where it went. */
function noteFloor(model, figures, section, cut, k, x, y) {
  if (cut.through || section.least[k] > section.top[k] - 1e-9) return;
  var end = model.end;
  var floor = heightOf(cut.floor, x, y);
  if (end.kind === 'drill') return noteHole(model, figures, section, k, x, y, floor);
  noteFigure(figures.deep, floor - section.most[k], x, y, section.most[k]);
  if (end.kind !== 'flat' || cut.floor.kind === 'plane') {
    noteFigure(figures.high, section.least[k] - floor, x, y, section.least[k]);
    return;
  }
  var reach = Infinity;
  nearStation(section, k).forEach(function (i) {
    var span = spanOver(model.moves, i, x, y, end.least);
    if (span === null) return;
    span.forEach(function (t) {
      var px = model.moves.x[i - 1] + t * (model.moves.x[i] - model.moves.x[i - 1]);
      var py = model.moves.y[i - 1] + t * (model.moves.y[i] - model.moves.y[i - 1]);
      reach = Math.min(reach, lowestFor(cut.floor, px, py, end.most));
    });
  });
  if (reach < Infinity) noteFigure(figures.high, section.least[k] - reach, x, y, section.least[k]);
}

/** A hole's depth is that of the full diameter: the tip goes deeper. */
function noteHole(model, figures, section, k, x, y, floor) {
  var low = Infinity;
  nearStation(section, k).forEach(function (i) {
    if (leftBy(model, i, x, y, model.end.most) < Infinity) low = Math.min(low, model.moves.z[i - 1], model.moves.z[i]);
  });
  if (low === Infinity) return;
  noteFigure(figures.deep, floor - low - tipOf(model.end), x, y, low);
  noteFigure(figures.high, low + tipOf(model.end) - floor, x, y, low);
}
`;
