/** The bundled parlour with some of its numbers changed. */
import type { Instrument } from '../../src/profile/types.ts';
import { bundledInstrument, soundValue } from './bundled.ts';

export const parlour = soundValue(bundledInstrument('tarn-parlour.yaml')).value;

export const board = (change: Partial<Instrument['fingerboard']>): Instrument => ({
  ...parlour,
  fingerboard: { ...parlour.fingerboard, ...change },
});
export const frets = (change: Partial<Instrument['frets']>): Instrument => ({
  ...parlour,
  frets: { ...parlour.frets, ...change },
});
export const face = (change: Partial<Instrument['faceMarkers']>): Instrument => ({
  ...parlour,
  faceMarkers: { ...parlour.faceMarkers, ...change },
});
export const side = (change: Partial<Instrument['sideMarkers']>): Instrument => ({
  ...parlour,
  sideMarkers: { ...parlour.sideMarkers, ...change },
});
export const pins = (change: Partial<Instrument['indexPins']>): Instrument => ({
  ...parlour,
  indexPins: { ...parlour.indexPins, ...change },
});
export const bridge = (change: Partial<Instrument['bridge']['pins']>): Instrument => ({
  ...parlour,
  bridge: { ...parlour.bridge, pins: { ...parlour.bridge.pins, ...change } },
});
export const nut = (change: Partial<Instrument['nut']>): Instrument => ({
  ...parlour,
  nut: { ...parlour.nut, ...change },
});
export const rod = (change: Partial<NonNullable<Instrument['trussRod']>>): Instrument => ({
  ...parlour,
  trussRod: { width: 6.35, depth: 9.5, from: 0, length: 350, ...change },
});
