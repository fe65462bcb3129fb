import type { Feature, Part } from '../../parts/types.ts';
import type { Instrument } from '../../profile/types.ts';
import { bothUnits } from './markdown.ts';

/** What to look at after each kind of work, before going on. */
export function benchChecks(
  instrument: Instrument,
  parts: readonly Part[],
): Readonly<Record<Feature['work'], string>> {
  const measured = slotToMeasure(instrument, parts);
  const slot = measured === null ? '' : `${measured}; `;
  return {
    indexPins:
      'both pins go in by hand without play, and the distance between them is that of the sheet; then pull both out again, because the cutter of the slots must not meet them',
    boardUnderside:
      'the pocket lies on the middle line of the underside, as deep as the profile says by a depth gauge; what stands above the neck goes in with room to spare',
    fretSlots: `${slot}count the slots; wire presses in without splitting; depth at both edges`,
    nutSeat:
      'the nut goes in by hand down to the floor and stands without light before its face; depth of the floor below the crest; the wall toward the frets, which is the nut face, at its distance from slot 1',
    faceMarkers: 'a marker drops in without force and stands proud by what the profile says',
    boardSurface: Number.isFinite(instrument.fingerboard.radius)
      ? 'a gauge of the radius (of a cone: of each of its two radii, at its own place) stands without light under it at the nut, the middle and the end; thickness along the middle and at both edges; the fine ridges still have to be sanded off'
      : 'a straightedge stands without light under it along the board and across it; thickness at both ends, along the middle and at both edges',
    bindingChannel:
      'a piece of the binding lies in the channel on its floor, flush with the line of the board’s edge or a hair outside it; depth at both edges, at the nut and at the end; no slot has cut into the floor',
    boardOutline:
      'width at the nut and at the stated fret; both edges straight; what held it, tabs or skin, cut and pared, not torn',
    inlays:
      'each part goes into its pocket by hand without force and without play that shows; none is chipped at its edge',
    sideMarkers: `all on the bass edge, each between the slots that the sheet names; the middle of each ${bothUnits(instrument.sideMarkers.below)} below the playing surface once that has its radius`,
    sideMarkerTemplate:
      'laid on the edge with its nut end at the board’s corner, every hole lies between the slots that the sheet names; it lies on the right side of the strip for this hand',
    radiusBlock:
      'the plates stand on a gauge of the radius without light under them, and the dowels go through all of them',
    pinTemplate: 'the distances between holes and from the saddle line are those of the sheet',
    neckBlank:
      'the rod goes in without force and lies below the face all along; both pins that hold the board go into the same holes of board and neck',
    neckBack:
      'depth of neck and board together at the first and the last gauge by a caliper, with the board laid on; each gauge goes on, its tips where the level that was left ends; the back is smooth but for its fine ridges',
    headstock:
      'each post or bushing goes into its hole in scrap before the first hole is drilled; the posts’ distances are those of the sheet',
    headVeneer: 'its holes lie over those of the plate, and the nut fits between its end and the board',
    headTemplate: 'its straight end is square to the centreline, and the pilots lie where the posts belong',
    neckGauges:
      'each lies in the order that the panel names; write the fret on it before it leaves the panel; its tips are whole',
    bridgeHoles:
      'the holes are square to the underside, and the distance between the outer ones is that of the sheet',
    saddleSlot: `the saddle goes in by hand pressure and stands upright without shaking; the slot is ${bothUnits(instrument.bridge.saddle.slotDepth)} deep at both ends`,
    saddleInPlace:
      'the twelfth fret and the open string agree on the outer strings; depth at both ends; the saddle stands upright without shaking',
    bridgeOutline:
      'what held it, tabs or skin, is cut and pared, not torn; its edges stand square to its face',
    tieHoles:
      'a string goes through each hole by hand, both ends of each are rounded over, and no hole has broken out behind',
    bridgeShape:
      'laid on the top where it belongs, no light shows under it all round; holes from above still stand square to the face',
    bridgePlate: 'its holes lie on those of the bridge, a drill in each of the outer two',
    bridgeJigs: 'its distances are those of the drawing, by rule',
    pinCoupon:
      'a pin reamed to its depth stands as proud as the profile says before its push, and goes home without a hammer',
    nutBlank: 'it lies on neck and board end without light; its slots are measured again over the first fret',
    saddleBlank: 'its underside is flat and square; heights by caliper from the bottom, string by string',
    jointTemplates:
      'try bush and cutter in scrap first: the tenon goes into the mortise by hand pressure, with the gap that the page names and no more',
    slotTemplate: `its nut end is square${measured === null ? '' : `; on it ${measured}`}`,
  };
}

/** The slot that a rule proves best: that of the octave, or on a board that has none the last one. */
function slotToMeasure({ frets, nut, scale }: Instrument, parts: readonly Part[]): string | null {
  const fret = frets.list[(frets.octave ?? frets.list.length) - 1];
  const x = fret === undefined ? null : slotPlace(parts, fret.label);
  if (fret === undefined || x === null) return null;
  const from = bothUnits(x - nut.setForward);
  if (frets.octave === null) {
    const short = fret.cents < 1200 ? ': the board ends before the octave' : '';
    return `slot ${fret.label}, the last, lies ${from} from the nut face${short}`;
  }
  const lies = `slot ${fret.label}, the octave, lies ${from} from the nut face: half the scale`;
  if (nut.setForward === 0) return lies;
  const sense = nut.setForward > 0 ? 'forward of' : 'behind';
  return `${lies}, ${bothUnits(scale.length / 2)}, counts from scale zero, and the nut face stands ${bothUnits(Math.abs(nut.setForward))} ${sense} that`;
}

/** Where a fret's slot crosses the middle of the board, from scale zero; null where none does. */
function slotPlace(parts: readonly Part[], label: string): number | null {
  const id = `fret-slot-${label.replace('+', '').padStart(2, '0')}${label.endsWith('+') ? '-plus' : ''}`;
  const slot = parts.flatMap((part) => part.features).find((f) => f.kind === 'slot' && f.id === id);
  if (slot?.kind !== 'slot') return null;
  const [[x0, y0], [x1, y1]] = slot.line;
  return y0 === y1 || y0 * y1 > 0 ? null : x0 - (y0 * (x1 - x0)) / (y1 - y0);
}
