/** The bundled parlour with some of its numbers changed. */
import type { Instrument, Pins } from '../../src/profile/types.ts';
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
export const bridge = (change: Partial<Pins>): Instrument => {
  const { anchor } = parlour.bridge;
  if (anchor.kind !== 'pins') throw new Error(`the parlour has pins, not ${anchor.kind}`);
  return { ...parlour, bridge: { ...parlour.bridge, anchor: { ...anchor, ...change } } };
};
export const nut = (change: Partial<Instrument['nut']>): Instrument => ({
  ...parlour,
  nut: { ...parlour.nut, ...change },
});
export const rod = (change: Partial<NonNullable<Instrument['trussRod']>>): Instrument => ({
  ...parlour,
  trussRod: { width: 6.35, depth: 9.5, from: 0, length: 350, clearance: null, ...change },
});
export const block = (change: Partial<NonNullable<Instrument['jigs']['radiusBlock']>>): Instrument => ({
  ...parlour,
  jigs: { ...parlour.jigs, radiusBlock: asked('radiusBlock', parlour.jigs.radiusBlock, change) },
});
export const template = (change: Partial<NonNullable<Instrument['jigs']['pinTemplate']>>): Instrument => ({
  ...parlour,
  jigs: { ...parlour.jigs, pinTemplate: asked('pinTemplate', parlour.jigs.pinTemplate, change) },
});
export const setBacks = (list: readonly number[]): Instrument => ({
  ...parlour,
  strings: parlour.strings.map((string, i) => ({ ...string, setBack: list[i] ?? Number.NaN })),
});
export const equalCentres = (instrument: Instrument): Instrument => ({
  ...instrument,
  nut: { ...instrument.nut, spacing: 'equal centres' },
});

function asked<J extends object>(name: string, jig: J | null, change: Partial<J>): J {
  if (jig === null) throw new Error(`the parlour has no ${name}`);
  return { ...jig, ...change };
}
