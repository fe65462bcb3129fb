/**
 * Page script, first piece: packed moves made into columns of numbers, and the weight each is drawn with.
 *
 * The pieces of this folder are text, joined by `script.ts` and run by the reader's browser: so they are the same bytes
 * however the program around them is bundled. Plain JavaScript, checked by TypeScript in the tests.
 */
export const MOVES_SCRIPT = `
var DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
/** Heaviest of the line weights a cut is drawn with; 0 is a feed move that cuts nothing. */
var HEAVIEST = 6;
var RAPID = 0;

/** @param {string} text */
function integersOf(text) {
  var values = new Uint8Array(256).fill(255);
  for (var i = 0; i < 64; i += 1) values[DIGITS.charCodeAt(i)] = i;
  var at = 0;
  return function next() {
    var sum = 0;
    var place = 1;
    var digit = 0;
    do {
      digit = at < text.length ? values[text.charCodeAt(at) & 255] : 255;
      if (digit === 255) throw new Error('the packed moves end early');
      at += 1;
      sum += (digit & 31) * place;
      place *= 32;
    } while (digit & 32);
    return sum % 2 === 0 ? sum / 2 : -(sum - 1) / 2;
  };
}

/** Columns with one entry more than there are moves: entry 0 is the place before the first. */
function unpackMoves(packed) {
  var count = packed.count;
  var moves = {
    count: count,
    kind: new Uint8Array(count + 1),
    line: new Uint32Array(count + 1),
    x: new Float64Array(count + 1),
    y: new Float64Array(count + 1),
    z: new Float64Array(count + 1),
    feed: new Float64Array(count + 1),
    spindle: new Float64Array(count + 1),
    weight: new Uint8Array(count + 1),
    /** How many moves have each weight. */
    weights: new Uint32Array(HEAVIEST + 1),
  };
  var next = integersOf(packed.packed);
  var now = [0, packed.start[0], packed.start[1], packed.start[2], 0, 0];
  for (var i = 0; i <= count; i += 1) {
    if (i > 0) {
      moves.kind[i] = next();
      for (var k = 0; k < now.length; k += 1) now[k] += next();
    }
    moves.line[i] = now[0];
    moves.x[i] = now[1] / 1000;
    moves.y[i] = now[2] / 1000;
    moves.z[i] = now[3] / 1000;
    moves.feed[i] = now[4];
    moves.spindle[i] = now[5];
  }
  return moves;
}

/** A cut's weight grows with its depth as a share of the wood; a beam's with its power. */
function weighMoves(moves, stock, cutBy) {
  var most = 0;
  var i;
  for (i = 1; i <= moves.count; i += 1) most = Math.max(most, moves.spindle[i]);
  for (i = 1; i <= moves.count; i += 1) {
    var depth = -Math.min(moves.z[i - 1], moves.z[i]) / (stock.z[1] - stock.z[0]);
    var share = cutBy === 'beam' ? moves.spindle[i] / (most || 1) : depth;
    var isCut = moves.kind[i] !== RAPID && share > 0;
    moves.weight[i] = isCut ? Math.max(1, Math.min(HEAVIEST, Math.ceil(share * HEAVIEST))) : 0;
    if (moves.kind[i] !== RAPID) moves.weights[moves.weight[i]] += 1;
  }
}

/** Lowest and highest tip of the tool, with the stock. */
function heightsOf(moves, stock) {
  var low = stock.z[0];
  var high = stock.z[1];
  for (var i = 1; i <= moves.count; i += 1) {
    low = Math.min(low, moves.z[i]);
    high = Math.max(high, moves.z[i]);
  }
  return [low, high];
}

function deepestOf(moves) {
  var deepest = 0;
  for (var i = 1; i <= moves.count; i += 1) if (moves.weight[i] > 0) deepest = Math.min(deepest, moves.z[i]);
  return deepest;
}

`;
