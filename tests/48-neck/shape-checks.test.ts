/** Bad values of the neck's back, its gauges and its pins are answered at the field that has to change. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkLayout } from '../../src/checks/checkLayout.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { layoutOf } from '../support/neck.ts';

const text = readFileSync('profiles/tarn-parlour.yaml', 'utf8');

/** The parlour with one text put for another, each of which must stand in it once. */
function changed(...changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((whole, [from, to]) => {
    if (whole.split(from).length !== 2) throw new Error(`"${from}" does not stand once in the profile`);
    return whole.replace(from, to);
  }, text);
}

/** Codes and fields of all errors, those of the reading first. */
function errorsIn(profile: string): [string, string | undefined][] {
  const loaded = loadInstrument(profile, 'parlour.yaml');
  const found = loaded.ok ? [...loaded.findings, ...onLayout(loaded.value.value)] : loaded.findings;
  return found.filter((f) => f.severity === 'error').map((f) => [f.code, f.where?.path]);
}
const onLayout = (instrument: Instrument) => checkLayout(layoutOf(instrument), instrument);

const STATION = '- { fret: 9, depth: 23.4, form: D }';

describe('bad values of the neck', () => {
  it('are none in the profile as it comes', () => {
    expect(errorsIn(text)).toEqual([]);
  });

  it.each([
    [
      'a gauge past the last fret',
      STATION,
      STATION.replace('9', '25'),
      'gauge-off-neck',
      'neckShape.stations.2.fret',
    ],
    [
      'a gauge over the body',
      STATION,
      STATION.replace('9', '13'),
      'station-past-joint',
      'neckShape.stations.2.fret',
    ],
    [
      'stations out of order',
      STATION,
      STATION.replace('9', '4'),
      'stations-out-of-order',
      'neckShape.stations.2.fret',
    ],
    [
      'a back that lays the rod bare',
      'fret: 5, depth: 22.4',
      'fret: 5, depth: 17',
      'carved-through-to-rod',
      'neckShape.stations',
    ],
    [
      'a back deeper than its blank',
      STATION,
      STATION.replace('23.4', '26.6'),
      'back-deeper-than-blank',
      'neckShape.stations',
    ],
    [
      'a pin that comes out of the back',
      '  offset: 14\n',
      '  offset: 14\n  intoNeck: 14\n',
      'index-pin-through-back',
      'indexPins.intoNeck',
    ],
    [
      'a rod longer than the neck',
      '  length: 330\n',
      '  length: 340\n',
      'rod-longer-than-neck',
      'trussRod.length',
    ],
    [
      'a tuner too near the edge',
      'fromCentre: 22',
      'fromCentre: 29',
      'tuner-too-near-edge',
      'headstock.tuners.fromCentre',
    ],
    [
      'a mortise deeper than its block',
      'width: 60, length: 50',
      'width: 60, length: 32',
      'mortise-deeper-than-block',
      'neckJoint.tenon.length',
    ],
  ])('name the field: %s', (_, from, to, code, path) => {
    expect(errorsIn(changed([from, to]))).toContainEqual([code, path]);
  });

  it('name the angle of a head that breaks through its blank', () => {
    const solid = changed(['build: scarf', 'build: one piece'], ['thickness: 20\n', 'thickness: 45\n']);
    expect(errorsIn(solid)).toContainEqual(['head-breaks-through-blank', 'headstock.angle']);
  });
});
