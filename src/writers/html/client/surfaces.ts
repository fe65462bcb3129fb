/** Page script: what is meant. Heights of surfaces, and what each cut may and must take at a place of the plan. */
export const SURFACES_SCRIPT = `
/** z of a surface: a plane, a cone about the line y = 0 with its radius linear in x, or a flat top partly worked down to one or planed. */
function heightOf(surface, x, y) {
  if (surface.kind === 'plane') return surface.z;
  if (surface.kind === 'planed') return x >= surface.x[0] && x <= surface.x[1] ? surface.floor : surface.z;
  if (surface.kind === 'worked') {
    return x >= surface.x[0] && x <= surface.x[1] ? Math.min(surface.z, heightOf(surface.cone, x, y)) : surface.z;
  }
  var growth = surface.x[1] === surface.x[0] ? 0 : (surface.R[1] - surface.R[0]) / (surface.x[1] - surface.x[0]);
  var radius = surface.R[0] + growth * (x - surface.x[0]);
  return surface.crest - surface.below - (y * y) / (Math.sqrt(Math.max(0, radius * radius - y * y)) + radius);
}

/** As low as a flat end of a radius may go at a place without cutting below the surface anywhere under it. */
function lowestFor(surface, x, y, r) {
  if (surface.kind === 'plane') return surface.z;
  return heightOf(surface, x, Math.abs(y) <= r ? 0 : y - Math.sign(y) * r);
}

/** A cut made ready to be asked. */
function readyCut(cut) {
  var shape = shapeOf(cut.rings);
  return Object.assign({}, cut, {
    shape: shape,
    allowedShape: shapeOf(cut.allowed),
    leftShape: shapeOf(cut.left),
    lineSides: cut.line === null ? [] : sidesOf(cut.line, false),
    keepsInside: cut.kind === 'separate' && keepsInside(cut.rings[0]),
    box: boxOfSides(shape.sides.concat(cut.line === null ? [] : sidesOf(cut.line, false), shapeOf(cut.allowed).sides)),
  });
}

/** Whether a place lies on the side of a ring that is not kept. */
function isWaste(cut, x, y) {
  return holds(cut.shape, x, y) !== cut.keepsInside;
}

function tabOver(cut, x, y) {
  return cut.tabs.find(function (tab) { return Math.hypot(x - tab.at[0], y - tab.at[1]) <= tab.length / 2 + 2; });
}

/** Height a cut is meant to leave at a place; Infinity where it takes nothing. */
function floorMeant(model, cut, x, y) {
  var end = model.end;
  if (!inBox(cut.box, x, y, 2 * end.usual)) return Infinity;
  var floor = cut.through ? model.stock.z[0] : heightOf(cut.floor, x, y);
  switch (cut.kind) {
    case 'line':
      return end.kind === 'beam' ? Infinity : heightOf(cut.floor, x, y) + distanceToSides(cut.lineSides, x, y) * slopeOf(end);
    case 'separate':
      if (!isWaste(cut, x, y) || distanceToSides(cut.shape.sides, x, y) > 2 * end.usual) return Infinity;
      var tab = cut.tabs.find(function (t) { return Math.hypot(x - t.at[0], y - t.at[1]) <= Math.hypot(t.length / 2, 2 * end.usual); });
      return tab === undefined ? floor : model.stock.z[0] + tab.height;
    default:
      return holds(cut.shape, x, y) ? floor : Infinity;
  }
}

/** Height that is gained for each mm away from the axis of a pointed end; 0 for another. */
function slopeOf(end) {
  return end.tipAngle === null || end.tipAngle >= 180 ? 0 : 1 / Math.tan((end.tipAngle * Math.PI) / 360);
}

/** Top of the stock at a place, or null beside it. */
function topAt(model, x, y) {
  return holds(model.stockShape, x, y) ? heightOf(model.stock.top, x, y) : null;
}

function meantAt(model, x, y, top) {
  var z = top;
  model.cuts.forEach(function (cut) { z = Math.min(z, floorMeant(model, cut, x, y)); });
  return Math.max(z, model.stock.z[0]);
}

/** How far a place that was cut lies outside all that may be cut. */
function outsideOf(model, x, y) {
  var least = Infinity;
  for (var i = 0; i < model.cuts.length && least > 0; i += 1) least = Math.min(least, outsideOfCut(model, model.cuts[i], x, y));
  return least;
}

function outsideOfCut(model, cut, x, y) {
  var end = model.end;
  if (!inBox(cut.box, x, y, 50)) return Infinity;
  if (cut.allowed.length > 0 && holds(cut.allowedShape, x, y)) return 0;
  if (cut.kind === 'line') return Math.max(0, distanceToSides(cut.lineSides, x, y) - end.usual);
  if (cut.kind === 'separate') {
    var away = distanceToSides(cut.shape.sides, x, y);
    if (!isWaste(cut, x, y)) return away;
    // The whole of an opening falls out; beside a part only a cut's width and the way in to it are meant.
    return cut.keepsInside ? Math.max(0, away - 4 * end.most - cut.wayIn) : 0;
  }
  if (holds(cut.shape, x, y)) return 0;
  return Math.min(
    distanceToSides(cut.shape.sides, x, y),
    cut.allowed.length > 0 ? distanceToSides(cut.allowedShape.sides, x, y) : Infinity,
  );
}
`;
