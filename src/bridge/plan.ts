import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Finding, Outcome } from '../report/finding.ts';
import { bridgeFindings } from './findings.ts';
import { workNut } from './nut.ts';
import { workPins } from './pins.ts';
import { placeBridge } from './place.ts';
import { strungClearance, workSaddle } from './saddle.ts';
import type { BridgeWork } from './types.ts';

/** Undersides of the open strings above the plane of the fret tops, string by string. */
export interface EndHeights {
  readonly atNut: number;
  readonly atSaddle: number;
}

/** All the numbers of bridge, saddle, nut and pins, with what is doubtful about them. */
export function planBridge(
  instrument: Instrument,
  layout: Layout,
  heights: readonly EndHeights[],
): Outcome<BridgeWork> {
  const { anchor, straightedge } = instrument.bridge;
  const work: BridgeWork = {
    instrument: instrument.name,
    units: instrument.units,
    place: placeBridge(layout, anchor.kind),
    nut: workNut(
      instrument,
      layout,
      heights.map((h) => h.atNut),
    ),
    saddle: workSaddle(
      instrument,
      layout,
      heights.map((h) => h.atSaddle),
    ),
    pins: workPins(instrument),
    taper:
      anchor.kind === 'pins'
        ? { reamer: anchor.reamerTaper, pin: anchor.pinTaper, through: anchor.through }
        : null,
    anchor,
    straightedge: { unstrung: straightedge, strung: strungClearance(instrument) },
  };
  const findings: Finding[] = bridgeFindings(instrument, work);
  return { ok: true, value: work, findings };
}
