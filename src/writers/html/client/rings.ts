/** Page script: rings whose corners may carry a bulge, exactly: inside or not, how far from a place, where a line meets them. */
export const RINGS_SCRIPT = `
/** Sides of a ring, or of an open chain, as lines and arcs. */
function sidesOf(corners, closed) {
  var sides = [];
  var count = closed ? corners.length : corners.length - 1;
  for (var i = 0; i < count; i += 1) sides.push(sideOf(corners[i], corners[(i + 1) % corners.length]));
  return sides;
}

function sideOf(a, b) {
  var bulge = a[2] || 0;
  var side = { x0: a[0], y0: a[1], x1: b[0], y1: b[1], bulge: bulge, cx: 0, cy: 0, radius: 0, start: 0, sweep: 0 };
  if (bulge === 0) return side;
  var off = (1 - bulge * bulge) / (4 * bulge);
  side.cx = (a[0] + b[0]) / 2 - (b[1] - a[1]) * off;
  side.cy = (a[1] + b[1]) / 2 + (b[0] - a[0]) * off;
  side.radius = Math.hypot(a[0] - side.cx, a[1] - side.cy);
  side.start = Math.atan2(a[1] - side.cy, a[0] - side.cx);
  side.sweep = 4 * Math.atan(bulge);
  return side;
}

/** Rings made ready: their sides and the box around them. */
function shapeOf(rings) {
  var sides = [];
  rings.forEach(function (ring) { sides = sides.concat(sidesOf(ring, true)); });
  return { sides: sides, box: boxOfSides(sides) };
}

function boxOfSides(sides) {
  var box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  sides.forEach(function (side) {
    // A corner's reach and, for an arc, no more than half its circle beyond its chord.
    var spare = side.bulge === 0 ? 0 : (Math.abs(side.bulge) * Math.hypot(side.x1 - side.x0, side.y1 - side.y0)) / 2 +
      (Math.abs(side.bulge) > 1 ? side.radius : 0);
    box.minX = Math.min(box.minX, side.x0 - spare, side.x1 - spare);
    box.minY = Math.min(box.minY, side.y0 - spare, side.y1 - spare);
    box.maxX = Math.max(box.maxX, side.x0 + spare, side.x1 + spare);
    box.maxY = Math.max(box.maxY, side.y0 + spare, side.y1 + spare);
  });
  return box;
}

function inBox(box, x, y, spare) {
  return x >= box.minX - spare && x <= box.maxX + spare && y >= box.minY - spare && y <= box.maxY + spare;
}

/** Even-odd: the polygon of the corners, turned over wherever a place lies between a chord and its arc. */
function holds(shape, x, y) {
  if (!inBox(shape.box, x, y, 0)) return false;
  var inside = false;
  for (var i = 0; i < shape.sides.length; i += 1) {
    var s = shape.sides[i];
    if ((s.y0 > y) !== (s.y1 > y) && x < s.x0 + ((y - s.y0) / (s.y1 - s.y0)) * (s.x1 - s.x0)) inside = !inside;
    if (s.bulge !== 0 && betweenChordAndArc(s, x, y)) inside = !inside;
  }
  return inside;
}

function betweenChordAndArc(s, x, y) {
  if (Math.hypot(x - s.cx, y - s.cy) > s.radius) return false;
  // A counter-clockwise arc bulges to the right of its chord.
  var right = (x - s.x0) * (s.y1 - s.y0) - (y - s.y0) * (s.x1 - s.x0);
  // Of a circle's two halves, whose chords are one line, exactly one has the places on it.
  if (right === 0) return s.x1 > s.x0 || (s.x1 === s.x0 && s.y1 > s.y0);
  return s.bulge > 0 ? right > 0 : right < 0;
}

/** Nearest place on a side. */
function nearestOn(s, x, y) {
  if (s.bulge !== 0) {
    var turn = Math.atan2(y - s.cy, x - s.cx) - s.start;
    if (s.sweep > 0) while (turn < 0) turn += 2 * Math.PI;
    else while (turn > 0) turn -= 2 * Math.PI;
    if (Math.abs(turn) <= Math.abs(s.sweep)) {
      var angle = s.start + turn;
      return [s.cx + s.radius * Math.cos(angle), s.cy + s.radius * Math.sin(angle)];
    }
    return Math.hypot(x - s.x0, y - s.y0) <= Math.hypot(x - s.x1, y - s.y1) ? [s.x0, s.y0] : [s.x1, s.y1];
  }
  var square = (s.x1 - s.x0) * (s.x1 - s.x0) + (s.y1 - s.y0) * (s.y1 - s.y0);
  var share = square === 0 ? 0 : ((x - s.x0) * (s.x1 - s.x0) + (y - s.y0) * (s.y1 - s.y0)) / square;
  var t = Math.max(0, Math.min(1, share));
  return [s.x0 + t * (s.x1 - s.x0), s.y0 + t * (s.y1 - s.y0)];
}

function distanceToSides(sides, x, y) {
  var least = Infinity;
  for (var i = 0; i < sides.length; i += 1) {
    var p = nearestOn(sides[i], x, y);
    least = Math.min(least, Math.hypot(x - p[0], y - p[1]));
  }
  return least;
}

/** Distances along a line from (x, y) in the unit direction (ux, uy) at which it meets the sides. */
function meetingsWith(sides, x, y, ux, uy) {
  var found = [];
  sides.forEach(function (s) {
    if (s.bulge === 0) {
      var cross = ux * (s.y1 - s.y0) - uy * (s.x1 - s.x0);
      if (Math.abs(cross) < 1e-12) return;
      var t = (ux * (y - s.y0) - uy * (x - s.x0)) / cross;
      if (t >= -1e-9 && t <= 1 + 1e-9) found.push((s.x0 + t * (s.x1 - s.x0) - x) * ux + (s.y0 + t * (s.y1 - s.y0) - y) * uy);
      return;
    }
    var along = (s.cx - x) * ux + (s.cy - y) * uy;
    var off = (s.cx - x) * uy - (s.cy - y) * ux;
    var square = s.radius * s.radius - off * off;
    if (square < 0) return;
    [along - Math.sqrt(square), along + Math.sqrt(square)].forEach(function (d) {
      var near = nearestOn(s, x + d * ux, y + d * uy);
      if (Math.hypot(near[0] - x - d * ux, near[1] - y - d * uy) < 1e-6) found.push(d);
    });
  });
  return found;
}

/** Points along a chain, its arcs as chords that leave them by no more than a screen can show. */
function pointsOf(corners, closed) {
  var points = [];
  sidesOf(corners, closed).forEach(function (s) {
    points.push([s.x0, s.y0]);
    if (s.bulge === 0) return;
    var step = 2 * Math.acos(Math.max(0, 1 - 0.0005 / s.radius));
    var count = Math.max(2, Math.ceil(Math.abs(s.sweep) / Math.min(0.1, step)));
    for (var i = 1; i < count; i += 1) {
      var angle = s.start + (s.sweep * i) / count;
      points.push([s.cx + s.radius * Math.cos(angle), s.cy + s.radius * Math.sin(angle)]);
    }
  });
  points.push(closed ? points[0] : corners[corners.length - 1]);
  return points;
}

/** Centre and radius where a ring is a full circle, else null. */
function circleOf(ring) {
  if (ring.length !== 2 || Math.abs(Math.abs(ring[0][2] || 0) - 1) > 1e-6) return null;
  var dx = ring[1][0] - ring[0][0];
  var dy = ring[1][1] - ring[0][1];
  return { x: ring[0][0] + dx / 2, y: ring[0][1] + dy / 2, radius: Math.hypot(dx, dy) / 2 };
}

/** Whether a ring runs counter-clockwise: what it encloses is kept. */
function keepsInside(ring) {
  var twice = 0;
  sidesOf(ring, true).forEach(function (s) {
    twice += s.x0 * s.y1 - s.x1 * s.y0;
    if (s.bulge !== 0) twice += s.radius * s.radius * (s.sweep - Math.sin(s.sweep));
  });
  return twice > 0;
}
`;
