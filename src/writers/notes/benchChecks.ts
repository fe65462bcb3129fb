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
    fretSlots: `${slot}count the slots; wire presses in without splitting; depth at both edges`,
    faceMarkers: 'a marker drops in without force and stands proud by what the profile says',
    boardSurface:
      'a gauge of the radius stands without light under it at the nut, the middle and the end; thickness along the middle and at both edges; the fine ridges still have to be sanded off',
    boardOutline:
      'width at the nut and at the stated fret; both edges straight; what held it, tabs or skin, cut and pared, not torn',
    sideMarkers: 'all on the bass edge, each between the slots that the sheet names',
    radiusBlock:
      'the plates stand on a gauge of the radius without light under them, and the dowels go through all of them',
    pinTemplate: 'the distances between holes and from the saddle line are those of the sheet',
    slotTemplate: `its nut end is square${measured === null ? '' : `; on it ${measured}`}`,
  };
}

/** The slot that a rule proves best: that of the octave, or on a board that ends before it the last one. */
function slotToMeasure({ frets, nut, scale }: Instrument, parts: readonly Part[]): string | null {
  const fret = Math.min(frets.perOctave, frets.count);
  const x = slotPlace(parts, fret);
  if (x === null) return null;
  const from = bothUnits(x - nut.setForward);
  if (fret < frets.perOctave)
    return `slot ${fret}, the last, lies ${from} from the nut face: the board ends before the octave`;
  if (nut.setForward === 0) return `slot ${fret}, the octave, lies ${from} from the nut face: half the scale`;
  const sense = nut.setForward > 0 ? 'forward of' : 'behind';
  return `slot ${fret}, the octave, lies ${from} from the nut face: half the scale, ${bothUnits(scale.length / 2)}, counts from scale zero, and the nut face stands ${bothUnits(Math.abs(nut.setForward))} ${sense} that`;
}

/** Place of a fret's slot along the board, from scale zero. */
function slotPlace(parts: readonly Part[], fret: number): number | null {
  const slots = parts.flatMap((part) => part.features.filter((f) => f.kind === 'slot'));
  const slot = slots.sort((a, b) => a.line[0][0] - b.line[0][0])[fret - 1];
  return slot === undefined ? null : slot.line[0][0];
}
