/** All checks over several fields of an instrument. */
import type { Finding } from '../report/finding.ts';
import { anchorChecks } from './checkAnchor.ts';
import { bindingChecks } from './checkBinding.ts';
import { boardChecks } from './checkBoard.ts';
import { bridgeChecks } from './checkBridge.ts';
import { bridgeBodyChecks } from './checkBridgeBody.ts';
import { bridgeJigChecks } from './checkBridgeJigs.ts';
import { clearanceFits } from './checkClearance.ts';
import { headChecks } from './checkHead.ts';
import { inlayChecks } from './checkInlays.ts';
import { jigChecks } from './checkJigs.ts';
import { markerCustoms } from './checkMarkerCustom.ts';
import { markerChecks } from './checkMarkers.ts';
import { neckChecks } from './checkNeck.ts';
import { nutSeatChecks } from './checkNutSeat.ts';
import { pinsFit } from './checkPins.ts';
import { saddleChecks } from './checkSaddle.ts';
import { scaleChecks } from './checkScale.ts';
import { shapeChecks } from './checkShape.ts';
import { sideChecks } from './checkSides.ts';
import { stringChecks } from './checkStrings.ts';
import { surfaceChecks } from './checkSurface.ts';
import { wireSuitsWood } from './checkWire.ts';
import type { InstrumentSections } from './resolve/instrument.ts';
import type { Instrument } from './types.ts';

const CHECKS = [
  ...boardChecks,
  ...scaleChecks,
  ...surfaceChecks,
  ...nutSeatChecks,
  ...bindingChecks,
  ...markerChecks,
  ...inlayChecks,
  wireSuitsWood,
  pinsFit,
  ...bridgeChecks,
  ...anchorChecks,
  ...bridgeBodyChecks,
  ...stringChecks,
  ...saddleChecks,
  ...neckChecks,
  ...headChecks,
  ...shapeChecks,
  ...jigChecks,
  ...bridgeJigChecks,
  ...sideChecks,
  clearanceFits,
];

/** What is wrong or doubtful in the sections there are. `asDrawn`: the marker frets are meant as they are. */
export function checkSections(sections: InstrumentSections, asDrawn: boolean): Finding[] {
  const checks = asDrawn ? CHECKS : [...CHECKS, ...markerCustoms];
  return checks.flatMap((run) => run(sections));
}

/** What is wrong or doubtful in a whole instrument; findings carry field paths. */
export function checkInstrument(instrument: Instrument, asDrawn = false): Finding[] {
  return checkSections(instrument, asDrawn);
}
