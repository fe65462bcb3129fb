/**
 * Page script: what the moves take away, in closed form. A move is a straight stretch; the end of the tool carried along it
 * covers a place of the plan for a part of the way, and leaves there the lowest height it had meanwhile.
 */
export const SWEPT_SCRIPT = `
/** Moves that follow each other, with the box around them: what lies far off is passed over whole. */
var CHUNK = 256;

function chunksOf(moves) {
  var count = Math.ceil(moves.count / CHUNK);
  var boxes = new Float64Array(4 * count);
  for (var k = 0; k < count; k += 1) {
    var last = Math.min(moves.count, (k + 1) * CHUNK);
    var minX = Infinity, minY = Infinity, maxX = -Infinity, maxY = -Infinity;
    for (var i = k * CHUNK; i <= last; i += 1) {
      minX = Math.min(minX, moves.x[i]);
      minY = Math.min(minY, moves.y[i]);
      maxX = Math.max(maxX, moves.x[i]);
      maxY = Math.max(maxY, moves.y[i]);
    }
    boxes.set([minX, minY, maxX, maxY], 4 * k);
  }
  return boxes;
}

/** Whether a move takes wood away: a cutter below the top, a beam that is on and goes through. */
function takesWood(model, i) {
  var moves = model.moves;
  if (moves.kind[i] === RAPID) return false;
  if (model.end.kind !== 'beam') return Math.min(moves.z[i - 1], moves.z[i]) < model.highest;
  var cut = model.cuts[model.cutOfLine[moves.line[i]]];
  return moves.spindle[i] > 0 && cut !== undefined && cut.through;
}

/** Numbers of the moves that take wood within a reach of a stretch of the plan. */
function movesNear(model, line, reach) {
  var moves = model.moves;
  var found = [];
  var minX = Math.min(line.ax, line.bx) - reach, maxX = Math.max(line.ax, line.bx) + reach;
  var minY = Math.min(line.ay, line.by) - reach, maxY = Math.max(line.ay, line.by) + reach;
  var boxes = model.chunks;
  for (var k = 0; 4 * k < boxes.length; k += 1) {
    if (boxes[4 * k] > maxX || boxes[4 * k + 2] < minX || boxes[4 * k + 1] > maxY || boxes[4 * k + 3] < minY) continue;
    if (sideOfBox(line, boxes, 4 * k, reach)) continue;
    var last = Math.min(moves.count, (k + 1) * CHUNK);
    for (var i = k * CHUNK + 1; i <= last; i += 1) {
      if (takesWood(model, i) && stretchNear(moves, i, line, reach) !== null) found.push(i);
    }
  }
  return found;
}

/** Whether a box lies wholly on one side of a line, farther off than a reach. */
function sideOfBox(line, boxes, k, reach) {
  var off = [];
  for (var c = 0; c < 4; c += 1) {
    var x = boxes[k + (c & 1 ? 2 : 0)];
    var y = boxes[k + (c & 2 ? 3 : 1)];
    off.push((x - line.ax) * line.uy - (y - line.ay) * line.ux);
  }
  return Math.min.apply(null, off) > reach || Math.max.apply(null, off) < -reach;
}

/** Stretch of a line, as distances from its start, that lies within a radius of a move; null where none does. */
function stretchNear(moves, i, line, r) {
  var x0 = moves.x[i - 1] - line.ax, y0 = moves.y[i - 1] - line.ay;
  var dx = moves.x[i] - moves.x[i - 1], dy = moves.y[i] - moves.y[i - 1];
  var from = Infinity, to = -Infinity;
  for (var e = 0; e < 2; e += 1) {
    var along = (x0 + e * dx) * line.ux + (y0 + e * dy) * line.uy;
    var off = (x0 + e * dx) * line.uy - (y0 + e * dy) * line.ux;
    if (Math.abs(off) > r) continue;
    var half = Math.sqrt(r * r - off * off);
    from = Math.min(from, along - half);
    to = Math.max(to, along + half);
  }
  var length = Math.hypot(dx, dy);
  if (length > 0) {
    // Between the two ends: beside the move by no more than r, and neither before it nor past it.
    var strip = between(-(x0 * dy - y0 * dx) / length, (line.ux * dy - line.uy * dx) / length, -r, r);
    var ends = between(-(x0 * dx + y0 * dy) / length, (line.ux * dx + line.uy * dy) / length, 0, length);
    var first = Math.max(strip[0], ends[0]), last = Math.min(strip[1], ends[1]);
    if (first <= last) {
      from = Math.min(from, first);
      to = Math.max(to, last);
    }
  }
  return from <= to && from < line.length && to > 0 ? [from, to] : null;
}

/** Values of s for which low <= at + slope s <= high. */
function between(at, slope, low, high) {
  if (Math.abs(slope) < 1e-12) return at >= low && at <= high ? [-Infinity, Infinity] : [Infinity, -Infinity];
  var a = (low - at) / slope, b = (high - at) / slope;
  return a < b ? [a, b] : [b, a];
}

/** Part of a move, as shares of it, during which its axis is within r of a place; null where it never is. */
function spanOver(moves, i, x, y, r) {
  var x0 = moves.x[i - 1], y0 = moves.y[i - 1];
  var dx = moves.x[i] - x0, dy = moves.y[i] - y0;
  var square = dx * dx + dy * dy;
  if (square === 0) return Math.hypot(x - x0, y - y0) <= r ? [0, 1] : null;
  var off = (x - x0) * dy - (y - y0) * dx;
  var room = r * r - (off * off) / square;
  if (room < 0) return null;
  var middle = ((x - x0) * dx + (y - y0) * dy) / square;
  var half = Math.sqrt(room / square);
  var from = Math.max(0, middle - half), to = Math.min(1, middle + half);
  return from <= to ? [from, to] : null;
}

/** Lowest height an end of radius r leaves at a place on its way along a move; Infinity where it never comes. */
function leftBy(model, i, x, y, r) {
  var moves = model.moves, end = model.end;
  var span = spanOver(moves, i, x, y, r);
  if (span === null) return Infinity;
  if (end.kind === 'beam') return model.stock.z[0];
  var z0 = moves.z[i - 1], dz = moves.z[i] - z0;
  if (end.kind === 'flat') return z0 + dz * (dz < 0 ? span[1] : span[0]);
  var x0 = moves.x[i - 1], y0 = moves.y[i - 1];
  var dx = moves.x[i] - x0, dy = moves.y[i] - y0;
  var length = Math.hypot(dx, dy);
  var middle = length === 0 ? 0 : ((x - x0) * dx + (y - y0) * dy) / (length * length);
  var off = length === 0 ? Math.hypot(x - x0, y - y0) : Math.abs((x - x0) * dy - (y - y0) * dx) / length;
  var best = length === 0 ? (dz < 0 ? 1 : 0) : turnOf(end, r, off, length, dz, middle);
  var low = Infinity;
  [span[0], span[1], Math.max(span[0], Math.min(span[1], best))].forEach(function (t) {
    low = Math.min(low, z0 + dz * t + heightOfEnd(end, r, Math.hypot(off, (t - middle) * length)));
  });
  return low;
}

/** Height of the end's underside over its tip, at a distance from its axis. */
function heightOfEnd(end, r, away) {
  if (end.kind === 'ball') return r - Math.sqrt(Math.max(0, r * r - away * away));
  if (end.kind === 'vee' || end.kind === 'drill') return away * slopeOf(end);
  return 0;
}

/** Where along a move, as a share of it, the end is lowest over a place: a rounded or pointed end on a slope is so before or after. */
function turnOf(end, r, off, length, dz, middle) {
  var k = dz / length;
  if (end.kind === 'ball') return middle - (Math.sqrt(Math.max(0, r * r - off * off)) * k) / Math.sqrt(1 + k * k) / length;
  var slope = slopeOf(end);
  if ((end.kind === 'vee' || end.kind === 'drill') && slope > Math.abs(k)) return middle - (off * k) / Math.sqrt(slope * slope - k * k) / length;
  return dz < 0 ? 1 : 0;
}
`;
