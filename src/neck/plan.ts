import type { Layout } from '../layout/types.ts';
import type { Instrument, NeckJoint } from '../profile/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Outcome } from '../report/finding.ts';
import { radiansFromDegrees } from '../units/convert.ts';
import { type Dome, domeRise, neckSlope } from './angle.ts';
import { overTheBody } from './extension.ts';
import { neckFindings } from './findings.ts';
import { heelRemoval, pointMoves } from './heel.ts';
import type { HeelWork, Measured, NeckSet } from './types.ts';

/** Under this the straightedge or the aim is as good as a bench can measure: nothing is taken off. */
const BENCH = { straightedge: 0.05, aim: 0.05 };

/** Saddle above the bridge's face under each string, for the action wanted and the clearance of the profile. */
export type SaddleHeights = readonly number[];

/** Whether the profile says enough to set the neck. */
export const setsNeck = ({ neckJoint, bridge }: Instrument): boolean =>
  neckJoint !== null && bridge.height !== null;

/** The neck's angle and, where something was measured, the work on its heel. */
export function planNeckSet(
  instrument: Instrument,
  layout: Layout,
  saddle: SaddleHeights,
  measured: Measured | null,
): Outcome<NeckSet> {
  const { neckJoint: joint, bridge } = instrument;
  const missing = missingFields(instrument);
  if (joint === null || bridge.height === null || missing.length > 0) {
    return { ok: false, findings: missing };
  }
  const set = neckSetOf(instrument, joint, bridge.height, layout, saddle);
  const work = measured === null ? null : heelWork(instrument, layout, joint, set, measured);
  const value = { ...set, work };
  return { ok: true, value, findings: neckFindings(instrument, value) };
}

function missingFields({ neckJoint, bridge }: Instrument): ReturnType<typeof errorFinding>[] {
  const about = (path: string, what: string, remedy: string) =>
    errorFinding('neck-set-needs', `The neck's angle cannot be worked out: ${what} is not in the profile.`, {
      where: { source: 'instrument', path },
      remedy,
    });
  return [
    ...(neckJoint === null
      ? [
          about(
            'neckJoint',
            'where the neck meets the body',
            'Add a section neckJoint with fret, heelDepth and heel widths.',
          ),
        ]
      : []),
    ...(bridge.height === null
      ? [
          about(
            'bridge',
            'how high the bridge is',
            'Say bridge: { height: ... }: its face above the bare top at the saddle.',
          ),
        ]
      : []),
  ];
}

function neckSetOf(
  instrument: Instrument,
  joint: NeckJoint,
  bridgeHeight: number,
  layout: Layout,
  saddle: SaddleHeights,
): Omit<NeckSet, 'work'> {
  const { bridge, fingerboard, fretWire, targets } = instrument;
  const at = jointX(layout, joint.fret);
  const length = saddleOnMiddle(layout) - at;
  const fretsAboveRim = joint.boardAboveRim + fingerboard.thickness + fretWire.crownHeight;
  const dome = domeOf(joint);
  const rise = domeRise(dome, length);
  const straightedge = bridgeHeight + bridge.straightedge;
  const slope = neckSlope({ length, fretsAboveRim, straightedge, rise });
  const tenth = length * Math.tan(radiansFromDegrees(0.1));
  return {
    instrument: instrument.name,
    units: instrument.units,
    jointFret: fretLabel(instrument, joint.fret),
    length,
    fretsAboveRim,
    bridgeHeight,
    domeRise: rise,
    clearance: { unstrung: bridge.straightedge, drop: bridge.drop },
    angle: Math.atan(slope),
    straightedge,
    saddle: [Math.min(...saddle), Math.max(...saddle)],
    tenth: {
      straightedge: tenth,
      action: tenth * actionShare(layout, targets.actionFret),
      actionFret: fretLabel(instrument, targets.actionFret),
    },
    extension: overTheBody(layout, {
      joint: at,
      jointFret: joint.fret,
      slope,
      dome,
      boardAboveRim: joint.boardAboveRim,
      fallAway: joint.fallAway,
    }),
    heel: { depth: joint.heelDepth, widthAtTop: joint.heelWidthAtTop, widthAtCap: joint.heelWidthAtCap },
  };
}

const domeOf = ({ domeRadius, domeApex }: NeckJoint): Dome => ({ radius: domeRadius, apex: domeApex });

function heelWork(
  instrument: Instrument,
  layout: Layout,
  joint: NeckJoint,
  set: Omit<NeckSet, 'work'>,
  measured: Measured,
): HeelWork {
  const raise = settled(set.straightedge - measured.straightedge, BENCH.straightedge);
  const aim = settled(measured.aim, BENCH.aim);
  const removal = heelRemoval(set.heel, set.length, raise, aim);
  const { length, fretsAboveRim, domeRise: rise } = set;
  const slopeNow = neckSlope({ length, fretsAboveRim, straightedge: measured.straightedge, rise });
  const turn = Math.atan((set.straightedge + rise - fretsAboveRim) / length) - Math.atan(slopeNow);
  const toNut = jointX(layout, joint.fret) - layout.nutFace;
  const shift = (removal.topBass + removal.topTreble) / 2;
  const low = set.straightedge - measured.straightedge;
  return {
    measured,
    raise,
    aim,
    removal,
    side: sideOf(raise),
    cheek: aim === 0 ? 'neither' : aim > 0 ? 'treble' : 'bass',
    wedge: { angle: Math.atan(Math.abs(raise) / length), thick: (Math.abs(raise) * set.heel.depth) / length },
    nutMoves:
      raise === 0 && aim === 0 ? 0 : pointMoves([-toNut, fretsAboveRim - toNut * slopeNow], shift, turn),
    nutSwings: (aim * toNut) / length,
    angleNow: Math.atan(slopeNow),
    actionOff: low * actionShare(layout, instrument.targets.actionFret),
    saddleIfLeft: [set.saddle[0] - low, set.saddle[1] - low],
  };
}

const settled = (value: number, least: number): number => (Math.abs(value) < least ? 0 : value);

function sideOf(raise: number): HeelWork['side'] {
  if (raise === 0) return 'neither';
  return raise > 0 ? 'cap' : 'top';
}

function fretLabel({ frets }: Instrument, place: number): string {
  return frets.list[place - 1]?.label ?? String(place);
}

/** What a change at the saddle comes to at a fret, the nut staying where it is. */
function actionShare(layout: Layout, fret: number): number {
  return (jointX(layout, fret) - layout.nutFace) / (saddleOnMiddle(layout) - layout.nutFace);
}

function jointX({ slots }: Layout, fret: number): number {
  const slot = slots.find((s) => s.fret === fret);
  if (slot === undefined) throw new Error(`fret ${fret} has no slot`);
  return slot.x;
}

function saddleOnMiddle({ saddleLine: [bass, treble] }: Layout): number {
  if (bass[1] === treble[1]) return bass[0];
  return bass[0] - (bass[1] * (treble[0] - bass[0])) / (treble[1] - bass[1]);
}
