/** Scale lengths: one, or two along reference lines. */
import { shareAt } from '../../spacing/cents.ts';
import { alongCentreline } from '../../spacing/slant.ts';
import { type BoardSections, halfWidthAt } from '../boardShape.ts';
import { showFretName, showLength } from '../schema/fields.ts';
import type { GivenInstrument } from '../schema/instrument.ts';
import type { Instrument, Scale } from '../types.ts';
import type { Fill } from './fill.ts';
import { placeOfFret } from './frets.ts';

type Given = GivenInstrument['scale'];

/** What reference lines are placed by. */
export type ScaleGround = Omit<BoardSections, 'scale'> & {
  readonly bridge: Instrument['bridge'];
  readonly units: Instrument['units'];
};

/**
 * The whole section. `ground` is undefined where a section that it needs could not be read; then only a single scale along the
 * centreline can be told.
 */
export function resolveScale(given: Given, ground: ScaleGround | undefined, fill: Fill): Scale | undefined {
  const two = given.length === undefined;
  const along = fill.plain(
    'scale.along',
    given.along,
    two ? 'reference lines' : 'centreline',
    two ? 'each scale length is that of its own side' : 'the usual meaning of a scale length',
  );
  const stated = {
    bass: given.length ?? given.bass ?? Number.NaN,
    treble: given.length ?? given.treble ?? Number.NaN,
  };
  if (!two && along === 'centreline') return { length: stated.bass, stated, along, lines: null, slant: null };
  if (ground === undefined) return undefined;
  fillLines(given, fill);
  return settle({ given, stated, along, ground }, two);
}

function fillLines(given: Given, fill: Fill): void {
  fill.shown(
    'scale.referenceLines',
    given.referenceLines,
    { fromEdgeAtNut: 0, fromEdgeAtSaddle: 0 },
    'where the outer strings run',
    'from nut.stringSpread and bridge.stringSpread',
  );
}

interface Wanted {
  readonly given: Given;
  readonly stated: Scale['stated'];
  readonly along: Scale['along'];
  readonly ground: ScaleGround;
}

/** Rounds after which the taper and the length it depends on agree to far less than a machine's step; four are usual. */
const ROUNDS = 40;

/** The board's edges at the scale's end depend on the mean length, and it on them by a hair: settled by repetition. */
function settle(wanted: Wanted, two: boolean): Scale {
  let scale = scaleWith(wanted, two, (wanted.stated.bass + wanted.stated.treble) / 2);
  for (let round = 0; round < ROUNDS; round += 1) {
    const next = scaleWith(wanted, two, scale.length);
    if (next.length === scale.length) break;
    scale = next;
  }
  return scale;
}

function scaleWith({ given, stated, along, ground }: Wanted, two: boolean, length: number): Scale {
  const lines = linesWith(given, ground, length);
  const outward = along === 'reference lines' ? lines.saddle - lines.nut : 0;
  const [bass, treble] = [alongCentreline(stated.bass, outward), alongCentreline(stated.treble, outward)];
  const mean = (bass + treble) / 2;
  const half = { nut: lines.nut, saddle: lines.saddle };
  const slant = two ? { difference: bass - treble, ...squareOf(given, ground, mean), half } : null;
  return { length: mean, stated, along, lines, slant };
}

/** Half the distance between the lines at both ends of the scale. */
function linesWith(
  { referenceLines }: Given,
  ground: ScaleGround,
  length: number,
): NonNullable<Scale['lines']> {
  if (referenceLines === undefined) {
    return { nut: ground.nut.stringSpread / 2, saddle: ground.bridge.stringSpread / 2 };
  }
  const scale = {
    length,
    stated: { bass: length, treble: length },
    along: 'centreline',
    lines: null,
    slant: null,
  } as const;
  const halfAt = (x: number): number => halfWidthAt({ ...ground, scale }, x);
  return {
    nut: halfAt(0) - referenceLines.fromEdgeAtNut,
    saddle: halfAt(length) - referenceLines.fromEdgeAtSaddle,
  };
}

function squareOf(
  { squareAt }: Given,
  { frets, units }: ScaleGround,
  length: number,
): { readonly squareShare: number; readonly squareWords: string } {
  if (squareAt?.distance !== undefined) {
    const words = `${showLength(squareAt.distance, units)} from scale zero`;
    return { squareShare: squareAt.distance / length, squareWords: words };
  }
  const name = squareAt?.fret ?? 0;
  const cents = name === 0 ? 0 : (frets.list[placeOfFret(frets, name) - 1]?.cents ?? 0);
  return {
    squareShare: shareAt(cents),
    squareWords: name === 0 ? 'scale zero' : `fret ${showFretName(name)}`,
  };
}
