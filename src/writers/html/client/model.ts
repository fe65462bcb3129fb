/** Page script: one program made ready to be drawn, cut through and asked. */
export const MODEL_SCRIPT = `
function modelFrom(program, moves) {
  var stock = program.stock;
  weighMoves(moves, stock, program.cutBy);
  var cuts = program.cuts.map(readyCut);
  return {
    stock: stock,
    stockShape: shapeOf(stock.rings),
    highest: stock.top.kind === 'cone' ? stock.top.crest - stock.top.below : stock.top.kind === 'shaft' ? stock.top.top : stock.top.z,
    end: program.end,
    cuts: cuts,
    cutOfLine: cutsOfLines(cuts, moves.line[moves.count]),
    chunks: chunksOf(moves),
    moves: moves,
    heights: heightsOf(moves, stock),
    deepest: deepestOf(moves),
    minutes: timesOf(moves, program.minutes),
    cutWidth: program.cutWidth,
    centrelineY: program.centrelineY,
    datum: program.datum,
    // The text of a long program is cut into lines when one is first asked for.
    lines: null,
    touched: {},
    isSettled: false,
    worst: undefined,
    catches: undefined,
    stockPoints: stock.rings.map(function (ring) { return pointsOf(ring, true); }),
    shapes: shapesOf(program),
  };
}

/** What is drawn of the part: its edges, and what this program is meant to cut. Each knows its cut, or -1. */
function shapesOf(program) {
  var shapes = program.outlines.map(function (ring) { return closedShape(ring, -1); });
  program.cuts.forEach(function (cut, k) {
    cut.rings.forEach(function (ring) { shapes.push(closedShape(ring, k)); });
    if (cut.line !== null) shapes.push({ points: pointsOf(cut.line, false), circle: null, marked: true, cut: k });
  });
  return shapes;
}

function closedShape(ring, cut) {
  return { points: pointsOf(ring, true), circle: circleOf(ring), marked: false, cut: cut };
}

/** Number of the cut that each line of the program works on, -1 for none. */
function cutsOfLines(cuts, count) {
  var numbers = new Int16Array(count + 1).fill(-1);
  cuts.forEach(function (cut, k) {
    cut.runs.forEach(function (run) { numbers.fill(k, run[0], run[1] + 1); });
  });
  return numbers;
}

/** Feed that a rapid is reckoned at where it cannot be known, mm/min: it only places moves on the time line. */
var RAPID_FEED = 3000;

/** Minutes from the start to the end of every move: way over feed, stretched so that the whole takes as long as the program does. */
function timesOf(moves, minutes) {
  var times = new Float64Array(moves.count + 1);
  for (var i = 1; i <= moves.count; i += 1) {
    var way = Math.hypot(moves.x[i] - moves.x[i - 1], moves.y[i] - moves.y[i - 1], moves.z[i] - moves.z[i - 1]);
    times[i] = times[i - 1] + way / (moves.kind[i] === RAPID || !(moves.feed[i] > 0) ? RAPID_FEED : moves.feed[i]);
  }
  var whole = times[moves.count];
  if (!(whole > 0 && minutes > 0)) return times;
  for (var k = 1; k <= moves.count; k += 1) times[k] *= minutes / whole;
  return times;
}

/** Number of the last move that has ended by a time. */
function moveAtTime(model, minutes) {
  var low = 0, high = model.moves.count;
  while (low < high) {
    var middle = (low + high + 1) >> 1;
    if (model.minutes[middle] <= minutes + 1e-9) low = middle;
    else high = middle - 1;
  }
  return low;
}

function linesOf(model, text) {
  if (model.lines === null) model.lines = text.split(/\\r?\\n/);
  return model.lines;
}
`;
