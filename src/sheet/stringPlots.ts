import type { Stringing, StringReport } from '../stringing/types.ts';
import type { Axis, Plot, PlotLine } from './plotTypes.ts';

/** Charts of how an instrument's strings will play: cents by fret, what a saddle leaves by string, heights over the frets. */
export function stringPlots(stringing: Stringing): Plot[] {
  return [centsByFret(stringing), residualByString(stringing), heightsOverFrets(stringing)];
}

const nameOf = ({ pull }: StringReport): string => `${pull.position} ${pull.pitch.replace(/\s+/g, ' ')}`;

function centsByFret({ instrument, strings }: Stringing): Plot {
  const lines = strings.map(
    (s): PlotLine => ({
      name: nameOf(s),
      points: s.tuning.cents.profile.map((cents, i) => [i + 1, cents]),
      plusMinus: s.tuning.cents.plusMinus,
      marks: false,
    }),
  );
  return {
    id: 'cents-by-fret',
    title: `${instrument}: cents sharp (+) or flat (-) at each fret, with the profile's set-backs`,
    note: 'A model; the upright strokes are its bands: nine of ten draws within the inputs’ tolerances.',
    across: fretAxis(lines),
    up: axisOver('cents', lines, 1),
    lines,
  };
}

/** Worst over the counted frets is what a player hears; the sign is kept. */
function residualByString({ instrument, strings, counted }: Stringing): Plot {
  const worst = (cents: readonly number[]): number =>
    counted.map((fret) => cents[fret - 1] ?? 0).reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  const lineOf = (name: string, pick: (s: StringReport) => readonly number[]): PlotLine => ({
    name,
    points: strings.map((s) => [s.pull.position, worst(pick(s))]),
    plusMinus: [],
    marks: true,
  });
  const lines = [
    lineOf('profile', (s) => s.tuning.cents.profile),
    lineOf('straight', (s) => s.tuning.cents.straight),
    lineOf('compensated', (s) => s.tuning.cents.crowned),
  ];
  return {
    id: 'cents-by-string',
    title: `${instrument}: the worst cents of each string over the frets that count, by saddle`,
    note: 'String 1 is the bass-most. Set-backs of the profile; the best straight saddle; a compensated crown.',
    across: { label: 'string', from: 0.5, to: strings.length + 0.5, step: 1 },
    up: axisOver('cents', lines, 1),
    lines,
  };
}

function heightsOverFrets({ instrument, strings }: Stringing): Plot {
  const lines = strings.map(
    (s): PlotLine => ({
      name: nameOf(s),
      points: s.heights.overFrets.map((height, i) => [i + 1, height]),
      plusMinus: [],
      marks: false,
    }),
  );
  return {
    id: 'heights-over-frets',
    title: `${instrument}: open strings above the fret tops`,
    note: 'Underside of the string to the top of the fret, for the action, the nut and the relief that are wanted.',
    across: fretAxis(lines),
    up: { ...axisOver('mm', lines, 0.5), from: 0 },
    lines,
  };
}

function fretAxis(lines: readonly PlotLine[]): Axis {
  const last = Math.max(...lines.map((line) => line.points.length));
  return { label: 'fret', from: 0, to: last, step: last > 24 ? 2 : 1 };
}

/** From a numbered line below everything to one above it; steps are doubled until there are at most twelve. */
function axisOver(label: string, lines: readonly PlotLine[], step: number): Axis {
  const values = lines.flatMap((line) =>
    line.points.flatMap(([, up], i) => [up - (line.plusMinus[i] ?? 0), up + (line.plusMinus[i] ?? 0)]),
  );
  const low = Math.min(0, ...values);
  const high = Math.max(0, ...values);
  let wide = step;
  while ((high - low) / wide > 12) wide *= 2;
  const to = Math.ceil(high / wide) * wide;
  const from = Math.floor(low / wide) * wide;
  return { label, from, to: to === from ? from + wide : to, step: wide };
}
