/** Page script: mouse, pen and fingers on the plan and the section: moving, zooming, picking, measuring, laying the section. */
export const POINTER_SCRIPT = `
/** Within reach of a fingertip, pixels. */
var REACH = 14;

function placeOnPlan(px, py) {
  var plan = byId('plan');
  return [(px - plan.clientWidth / 2) / state.view.scale + state.view.x, (plan.clientHeight / 2 - py) / state.view.scale + state.view.y];
}

/** What the pointer does on the plan. */
function pointerTask() {
  return /** @type {HTMLInputElement} */ (document.querySelector('input[name=pointer]:checked')).value;
}

/** Where two fingers are: the place between them and how far apart. */
function spreadOf(held) {
  var fingers = Array.from(held.values());
  return {
    x: (fingers[0].x + fingers[1].x) / 2, y: (fingers[0].y + fingers[1].y) / 2,
    apart: Math.hypot(fingers[0].x - fingers[1].x, fingers[0].y - fingers[1].y) || 1,
  };
}

/** \`does\`: zoom, shift, and, for one pointer, grab (gives what to do with a drag, or null to shift the view) and pick. */
function listenToPointer(canvas, does) {
  var held = new Map();
  var moved = 0;
  var drag = null;
  function at(event) {
    var box = canvas.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  }
  canvas.addEventListener('wheel', function (event) {
    event.preventDefault();
    var place = at(event);
    does.zoom(place.x, place.y, Math.exp(-event.deltaY * 0.0015));
  }, { passive: false });
  canvas.addEventListener('pointerdown', function (event) {
    canvas.setPointerCapture(event.pointerId);
    held.set(event.pointerId, at(event));
    if (held.size > 1) {
      if (drag !== null) drag.end();
      drag = null;
      moved = Infinity;
      return;
    }
    moved = 0;
    drag = does.grab(held.get(event.pointerId));
  });
  canvas.addEventListener('pointermove', function (event) {
    var before = held.get(event.pointerId);
    if (before === undefined) return;
    var now = at(event);
    if (held.size === 2) {
      var first = spreadOf(held);
      held.set(event.pointerId, now);
      var second = spreadOf(held);
      does.shift(second.x - first.x, second.y - first.y);
      does.zoom(second.x, second.y, second.apart / first.apart);
      return;
    }
    held.set(event.pointerId, now);
    moved += Math.abs(now.x - before.x) + Math.abs(now.y - before.y);
    if (moved <= 3) return;
    if (drag !== null) drag.to(now);
    else does.shift(now.x - before.x, now.y - before.y);
  });
  function release(event) {
    var place = held.get(event.pointerId);
    held.delete(event.pointerId);
    if (place === undefined) return;
    if (drag !== null) drag.end();
    if (moved <= 3 && event.type === 'pointerup') does.pick(place);
    drag = null;
  }
  canvas.addEventListener('pointerup', release);
  canvas.addEventListener('pointercancel', release);
}

/** One of the section's ends under the pointer, the line itself, or, when that is its task, a new line. */
function grabOnPlan(place) {
  var line = state.line;
  var a = [(line.ax - state.view.x) * state.view.scale, (line.ay - state.view.y) * state.view.scale];
  var b = [(line.bx - state.view.x) * state.view.scale, (line.by - state.view.y) * state.view.scale];
  var plan = byId('plan');
  var p = [place.x - plan.clientWidth / 2, plan.clientHeight / 2 - place.y];
  if (pointerTask() === 'measure') return null;
  if (Math.hypot(p[0] - a[0], p[1] - a[1]) < REACH) return dragSection(function (x, y) { return [x, y, line.bx, line.by]; });
  if (Math.hypot(p[0] - b[0], p[1] - b[1]) < REACH) return dragSection(function (x, y) { return [line.ax, line.ay, x, y]; });
  if (pointerTask() !== 'section') return null;
  var start = placeOnPlan(place.x, place.y);
  if (distanceTo(p[0], p[1], a[0], a[1], b[0], b[1]) < REACH / 2) {
    return dragSection(function (x, y) {
      var dx = x - start[0], dy = y - start[1];
      return [line.ax + dx, line.ay + dy, line.bx + dx, line.by + dy];
    });
  }
  return dragSection(function (x, y) { return [start[0], start[1], x, y]; });
}

function dragSection(ends) {
  return {
    to: function (place) {
      state.dragging = true;
      var at = placeOnPlan(place.x, place.y);
      var line = ends(at[0], at[1]);
      setLineOfSection(line[0], line[1], line[2], line[3], false);
    },
    end: function () {
      state.dragging = false;
      state.section = null;
      redraw();
    },
  };
}

function pickOnPlan(place) {
  var at = placeOnPlan(place.x, place.y);
  if (pointerTask() === 'measure') addMeasured(snapAt(at[0], at[1]));
  else if (pointerTask() === 'look') pickAt(at[0], at[1]);
}

/** The nearest move within reach, and the feature whose edge is: that of the move when none is nearer. */
function pickAt(x, y) {
  var model = current();
  var reach = REACH / state.view.scale;
  var move = nearestMove(model, x, y, reach);
  var feature = nearestFeature(model, x, y, reach);
  if (move > 0) goTo(move);
  if (feature < 0 && move > 0) feature = model.cutOfLine[model.moves.line[move]];
  if (feature >= 0) chooseFeature(feature);
}

function nearestMove(model, x, y, reach) {
  var moves = model.moves;
  var best = -1;
  var least = reach;
  runsInView(model, { minX: x - reach, minY: y - reach, maxX: x + reach, maxY: y + reach }).forEach(function (run) {
    for (var i = run[0]; i <= run[1]; i += 1) {
      var gap = distanceTo(x, y, moves.x[i - 1], moves.y[i - 1], moves.x[i], moves.y[i]);
      if (gap < least) {
        least = gap;
        best = i;
      }
    }
  });
  return best;
}

/** A place within a pocket or slot counts as on it; small features lie over large ones. */
function nearestFeature(model, x, y, reach) {
  var best = -1;
  var least = Infinity;
  model.cuts.forEach(function (cut, number) {
    if (!inBox(cut.box, x, y, reach)) return;
    var sides = cut.shape.sides.length > 0 ? cut.shape.sides : cut.lineSides;
    var within = cut.kind !== 'separate' && cut.kind !== 'surface' && cut.shape.sides.length > 0 && holds(cut.shape, x, y);
    var gap = within ? 0 : distanceToSides(sides, x, y);
    if (gap < reach && gap < least) {
      least = gap;
      best = number;
    }
  });
  return best;
}

/** Places that measuring catches: corners, middles of sides, centres, ends, and the datum. */
function catchesOf(model) {
  if (model.catches === undefined) {
    model.catches = [{ x: model.datum.at[0], y: model.datum.at[1], what: 'the zero that places are told from' }];
    data.programs[state.program].outlines.forEach(function (ring) { addCatches(model.catches, sidesOf(ring, true), 'the outline', undefined); });
    model.cuts.forEach(function (cut) {
      addCatches(model.catches, cut.shape.sides.concat(cut.lineSides), cut.id, cut);
    });
  }
  return model.catches;
}

function addCatches(catches, sides, name, cut) {
  sides.forEach(function (s) {
    var middle = s.bulge === 0 ? [(s.x0 + s.x1) / 2, (s.y0 + s.y1) / 2]
      : [s.cx + s.radius * Math.cos(s.start + s.sweep / 2), s.cy + s.radius * Math.sin(s.start + s.sweep / 2)];
    catches.push({ x: s.x0, y: s.y0, what: 'a corner of ' + name, cut: undefined });
    catches.push({ x: s.x1, y: s.y1, what: 'a corner of ' + name, cut: undefined });
    catches.push({ x: middle[0], y: middle[1], what: 'the middle of a side of ' + name, cut: undefined });
    if (s.bulge !== 0) catches.push({ x: s.cx, y: s.cy, what: 'the centre of ' + name, cut: undefined });
  });
  if (cut !== undefined) {
    var centre = middleOf(cut);
    catches.push({ x: centre[0], y: centre[1], what: 'the middle of ' + name, cut: undefined });
  }
}

/** A caught place within reach, else the nearest place on an edge, else the place itself. */
function snapAt(x, y) {
  var model = current();
  var reach = REACH / state.view.scale;
  var best = null;
  var least = reach;
  catchesOf(model).forEach(function (c) {
    var gap = Math.hypot(c.x - x, c.y - y);
    if (gap < least) {
      least = gap;
      best = c;
    }
  });
  if (best !== null) return best;
  model.cuts.forEach(function (cut) {
    cut.shape.sides.concat(cut.lineSides).forEach(function (s) {
      var p = nearestOn(s, x, y);
      var gap = Math.hypot(p[0] - x, p[1] - y);
      if (gap < least) {
        least = gap;
        best = { x: p[0], y: p[1], what: 'the edge of ' + cut.id, cut: undefined };
      }
    });
  });
  return best === null ? { x: x, y: y, what: 'a free place', cut: undefined } : best;
}

function addMeasured(point) {
  state.measured = state.measured.length === 1 ? [state.measured[0], point] : [point];
  inputOf('measure-from').value = '-1';
  inputOf('measure-to').value = '-1';
  showMeasured();
  redraw();
}

/** Two features chosen by name. */
function measureChosen() {
  var model = current();
  state.measured = ['measure-from', 'measure-to'].flatMap(function (id) {
    var value = inputOf(id).value;
    if (value === 'zero') return [{ x: model.datum.at[0], y: model.datum.at[1], what: 'the zero that places are told from', cut: undefined }];
    var cut = model.cuts[Number(value)];
    if (cut === undefined) return [];
    var middle = middleOf(cut);
    return [{ x: middle[0], y: middle[1], what: cut.id, cut: cut }];
  });
  showMeasured();
  redraw();
}

function clearChosen() {
  state.measured = [];
  inputOf('measure-from').value = '-1';
  inputOf('measure-to').value = '-1';
  showMeasured();
  chooseFeature(-1);
}
`;
