/** What a bug in a writer or planner, a wrong unit, a wrong set-up or a wrong file makes of a program. */
import type { Intent } from '../../../src/intent/types.ts';
import type { Damage } from './byHand.ts';
import type { Random } from './random.ts';
import { mapWords, type Parts, written } from './text.ts';

const TURN = Math.PI / 180;

/** The last move home is not always touched by what spoils the rest. */
function rangeOf({ lines }: Parts, random: Random): [number, number] {
  const home = lines.findLastIndex((line) => /X0(\.0*)? ?Y0(\.0*)?\b/.test(line));
  return home > 0 && random.share() < 0.7 ? [0, home] : [0, lines.length];
}

export const shifted: Damage = (parts, random) => {
  const letter = random.pick(['X', 'Y', 'Z', 'XY']);
  const by = random.sign() * random.size(0.0005, 20);
  return mapWords(parts, letter, (word) => word.value + by, rangeOf(parts, random));
};

/** The person touched off at another corner or edge. */
export const wrongWorkZero: Damage = (parts, random) => {
  const xs = parts.intent.stock.region[0]?.map((p) => p[0]) ?? [0];
  const ys = parts.intent.stock.region[0]?.map((p) => p[1]) ?? [0];
  const [w, h] = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
  const { diameter } = parts.intent.tool;
  const [letter, by] = random.pick<readonly [string, number]>([
    ['X', w],
    ['X', -w],
    ['Y', h / 2],
    ['Y', -h / 2],
    ['X', diameter / 2],
    ['Y', -diameter / 2],
    ['Z', parts.intent.stock.bottom],
    ['Z', 0.5],
    ['Z', -0.5],
  ]);
  return mapWords(parts, letter, (word) => word.value + by, rangeOf(parts, random));
};

export const mirrored: Damage = (parts, random) => {
  const axis = random.pick(['X', 'Y']);
  const along = parts.intent.stock.region[0]?.map((p) => (axis === 'X' ? p[0] : p[1])) ?? [0];
  const about = random.share() < 0.5 ? 0 : Math.min(...along) + Math.max(...along);
  const centre = axis === 'X' ? 'I' : 'J';
  const range = rangeOf(parts, random);
  const text = mapWords(
    parts,
    axis + centre,
    (word) => (word.letter === axis ? about - word.value : -word.value),
    range,
  );
  if (random.share() < 0.3) return text;
  return text.replace(/\bG0?([23])\b/g, (_, turn: string) => (turn === '2' ? 'G3' : 'G2'));
};

/** Every block is turned about the work zero; words that a line leaves out are filled in. */
export const turned: Damage = (parts, random) => {
  const angle = random.sign() * random.pick([0.01, 0.03, 0.1, 0.1, 0.5, 90]) * TURN;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  let [x, y] = [0, 0];
  const lines = parts.lines.map((line, number) => {
    const words = parts.words.filter((word) => word.line === number);
    const value = (letter: string): number | undefined => words.find((word) => word.letter === letter)?.value;
    const moves = value('X') !== undefined || value('Y') !== undefined;
    [x, y] = [value('X') ?? x, value('Y') ?? y];
    let next = line;
    if (moves) {
      next = next.replace(/[XY]-?[\d.]+ ?/g, '').trim();
      next = next.replace(
        /^(N\d+ ?)?(G\d+ ?)*/,
        (head) => `${head.trim()} X${written(c * x - s * y)} Y${written(s * x + c * y)} `,
      );
    }
    const [i, j] = [value('I') ?? 0, value('J') ?? 0];
    if (value('I') === undefined && value('J') === undefined) return next.trim();
    next = next.replace(/[IJ]-?[\d.]+ ?/g, '').trim();
    return `${next} I${written(c * i - s * j)} J${written(s * i + c * j)}`.trim();
  });
  return lines.join('\n');
};

export const scaled: Damage = (parts, random) => {
  const by = random.pick([25.4, 1 / 25.4, 1.001, 0.999, 1.0001, 1.01, 2, 0.5, 10]);
  const letters = random.pick(['XYZIJKR', 'XYZIJKR', 'XI', 'YJ', 'Z']);
  return mapWords(parts, letters, (word) => word.value * by, rangeOf(parts, random));
};

/** Inch numbers under a millimetre word, or the other way round. */
export const unitsChanged: Damage = (parts, random) => {
  const numbers = (text: string): Parts => ({ ...parts, text });
  const toInch = parts.text.replace(/\bG21\b/, 'G20');
  if (toInch === parts.text) return parts.text.replace(/\bG20\b/, 'G21');
  if (random.share() < 0.4) return toInch;
  const scale = random.share() < 0.5 ? 25.4 : 1 / 25.4;
  return mapWords(
    numbers(random.share() < 0.5 ? toInch : parts.text),
    'XYZIJKRF',
    (word) => word.value * scale,
  );
};

export const roundedOff: Damage = (parts, random) => {
  const decimals = random.pick([0, 1, 1, 2, 2, 3]);
  const letters = random.pick(['XYZIJKR', 'XY', 'IJK', 'Z']);
  return mapWords(parts, letters, (word) => Number(word.value.toFixed(decimals)));
};

/** Errors that add up, as when steps are lost. */
export const drifting: Damage = (parts, random) => {
  const letter = random.pick(['X', 'Y', 'Z']);
  const by = random.sign() * random.size(0.00001, 0.01);
  let sum = 0;
  return mapWords(
    parts,
    letter,
    (word) => {
      sum += by;
      return word.value + sum;
    },
    rangeOf(parts, random),
  );
};

export const allFeedsChanged: Damage = (parts, random) => {
  const by = random.pick([0.01, 0.1, 0.5, 0.8, 1.2, 2, 10, 25.4, 60]);
  return mapWords(parts, 'F', (word) => word.value * by);
};

export const allSpeedsChanged: Damage = (parts, random) => {
  const by = random.pick([0, 0.1, 0.5, 0.9, 1.2, 2, 10]);
  return mapWords(parts, 'S', (word) => Math.round(word.value * by));
};

export const featureLeftOut: Damage = (parts, random) => {
  if (parts.blocks.length === 0) return null;
  const [from, to] = random.pick(parts.blocks);
  return [...parts.lines.slice(0, from), ...parts.lines.slice(to)].join('\n');
};

export const featureMadeTwice: Damage = (parts, random) => {
  if (parts.blocks.length === 0) return null;
  const [from, to] = random.pick(parts.blocks);
  return [...parts.lines.slice(0, to), ...parts.lines.slice(from, to), ...parts.lines.slice(to)].join('\n');
};

export const featureShifted: Damage = (parts, random) => {
  if (parts.blocks.length === 0) return null;
  const letter = random.pick(['X', 'Y', 'Z']);
  const by = random.sign() * random.size(0.0005, 3);
  return mapWords(parts, letter, (word) => word.value + by, random.pick(parts.blocks));
};

export const featuresReordered: Damage = ({ lines, blocks }, random) => {
  if (blocks.length < 2) return null;
  const a = random.below(blocks.length);
  const b = random.below(blocks.length);
  const order = blocks.map((_, k) => (k === a ? b : k === b ? a : k));
  if (a === b) order.reverse();
  const [start, end] = [blocks[0]?.[0] ?? 0, blocks[blocks.length - 1]?.[1] ?? lines.length];
  const middle = order.flatMap((k) => lines.slice(blocks[k]?.[0], blocks[k]?.[1]));
  return [...lines.slice(0, start), ...middle, ...lines.slice(end)].join('\n');
};

/** A run of lines within a feature is left out: a pass, a turn, a peck. */
export const passLeftOut: Damage = (parts, random) => {
  const block = blockOfLength(parts, random, 4);
  if (block === null) return null;
  const [from, to] = block;
  const start = from + 1 + random.below(to - from - 3);
  const count = 1 + random.below(Math.min(12, to - start - 1));
  return [...parts.lines.slice(0, start), ...parts.lines.slice(start + count)].join('\n');
};

export const passMadeTwice: Damage = (parts, random) => {
  const block = blockOfLength(parts, random, 4);
  if (block === null) return null;
  const [from, to] = block;
  const start = from + 1 + random.below(to - from - 3);
  const end = Math.min(to, start + 1 + random.below(12));
  return [...parts.lines.slice(0, end), ...parts.lines.slice(start, end), ...parts.lines.slice(end)].join(
    '\n',
  );
};

export const passDeeper: Damage = (parts, random) => {
  const block = blockOfLength(parts, random, 3);
  if (block === null) return null;
  const [from, to] = block;
  const start = from + random.below(to - from);
  const end = Math.min(to, start + 1 + random.below(8));
  const by = random.share() < 0.5 ? random.pick([2, 1.5, 1.1, 0.5]) : 0;
  const drop = random.size(0.005, 1) * random.sign();
  return mapWords(
    parts,
    'Z',
    (word) => (word.value < 0 ? (by === 0 ? word.value - drop : word.value * by) : word.value),
    [start, end],
  );
};

function blockOfLength(parts: Parts, random: Random, least: number): readonly [number, number] | null {
  const long = parts.blocks.filter(([from, to]) => to - from > least);
  return long.length === 0 ? null : random.pick(long);
}

export const depthsChanged: Damage = (parts, random) => {
  const by = random.pick([2, 1.5, 1.1, 1.02, 0.98, 0.9, 0.5]);
  return mapWords(parts, 'Z', (word) => (word.value < 0 ? word.value * by : word.value));
};

export const retractLost: Damage = ({ lines }, random) => {
  const ups = lines.flatMap((line, i) => (/^(N\d+ ?)?(G0?0 ?)?Z[\d.]+$/.test(line.trim()) ? [i] : []));
  if (ups.length === 0) return null;
  const at = random.pick(ups);
  return [...lines.slice(0, at), ...lines.slice(at + 1)].join('\n');
};

export const retractLower: Damage = ({ lines }, random) => {
  const ups = lines.flatMap((line, i) => (/^(N\d+ ?)?(G0?0 ?)?Z[\d.]+$/.test(line.trim()) ? [i] : []));
  if (ups.length === 0) return null;
  const at = random.pick(ups);
  const z = random.pick(['0.5', '0', '-0.5', '-1', '-2', '2']);
  return lines.map((line, i) => (i === at ? line.replace(/Z[\d.]+/, `Z${z}`) : line)).join('\n');
};

/** Heights that rise and fall again within a feature, levelled with what stands before them: a tab cut away. */
export const tabLost: Damage = ({ lines, words, intent }, random) => {
  if (intent.cuts.every((cut) => cut.tabs.length === 0)) return null;
  const heights = words.filter((word) => word.letter === 'Z' && word.value < 0);
  const raised = heights.flatMap((word, k) => {
    const before = heights[k - 1];
    return before !== undefined && word.value > before.value + 0.05 ? [{ word, level: before.digits }] : [];
  });
  if (raised.length === 0) return null;
  const { word, level } = random.pick(raised);
  const share = random.pick([1, 1, 0.5, 0.2]);
  const z = written(word.value + (Number(level) - word.value) * share);
  return lines.map((line, i) => (i === word.line ? line.replace(/Z-?[\d.]+/, `Z${z}`) : line)).join('\n');
};

export const beamLeftOn: Damage = ({ lines, intent }, random) => {
  if (intent.tool.kind !== 'beam') return null;
  const offs = lines.flatMap((line, i) => (/M0?5/.test(line) ? [i] : []));
  const at = random.pick(offs);
  return [...lines.slice(0, at), ...lines.slice(at + 1)].join('\n');
};

/** Outlines moved by half a kerf or a tool's width, as when compensation is forgotten or doubled. */
export const compensatedWrongly: Damage = (parts, random) => {
  const width = parts.intent.tool.kerf ?? parts.intent.tool.diameter;
  const by = random.pick([width / 2, width, -width / 2]);
  const block = blockOfLength(parts, random, 1);
  if (block === null) return null;
  const xs = parts.words.filter(
    (word) => word.letter === 'X' && word.line >= block[0] && word.line < block[1],
  );
  const middle = xs.reduce((sum, word) => sum + word.value, 0) / Math.max(1, xs.length);
  return mapWords(parts, 'X', (word) => word.value + (word.value > middle ? by : -by), block);
};

/** Another cutter than the one meant; the text stays as it is. */
export function otherTool(intent: Intent, random: Random): Intent {
  const { tool } = intent;
  const width = tool.kind === 'beam' ? (tool.kerf ?? tool.diameter) : tool.diameter;
  const other =
    random.share() < 0.4
      ? width + random.sign() * random.size(0.005, 0.2)
      : random.pick([0.5, 0.6, 0.8, 1, 1.5, 2, 3, 3.175, 6]);
  const half = (tool.diameterRange[1] - tool.diameterRange[0]) / 2;
  const diameter = Math.max(0.05, other);
  return {
    ...intent,
    tool: {
      ...tool,
      diameter,
      diameterRange: [Math.max(0.01, diameter - half), diameter + half],
      kerf: tool.kerf === null ? null : diameter,
    },
  };
}
