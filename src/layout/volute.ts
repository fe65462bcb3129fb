/** The volute: a dart whose sides are hollow arcs that meet in a point on the centreline. */
import { sectionsOn } from '../carving/along.ts';
import type { Shaft } from '../carving/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { NeckLayout, VoluteLayout } from './neckTypes.ts';

/** The neck with its volute, where the profile asks for one. */
export function withVolute(
  { neckShape }: Instrument,
  neck: NeckLayout | null,
  shaft: Shaft | null,
  nutFace: number,
): NeckLayout | null {
  const volute = neckShape?.volute ?? null;
  if (neck === null || volute === null) return neck;
  const [from, half] = [nutFace + volute.from, volute.width / 2];
  const point = from + volute.length;
  // An arc of sagitta s over a chord c turns by 4 atan(2 s / c); its bulge is 2 s / c, negative where it runs inward.
  const bulge = -2 * volute.hollow;
  const ring: VoluteLayout['ring'] = [
    { x: from, y: -half, bulge },
    { x: point, y: 0, bulge },
    { x: from, y: half, bulge: 0 },
  ];
  return { ...neck, volute: { ring, ridge: ridgeOf(shaft, [from, point], volute.rise) } };
}

/** Straight from the broad end, `rise` outside the back, to the back at the point. */
function ridgeOf(
  shaft: Shaft | null,
  [from, point]: readonly [number, number],
  rise: number,
): VoluteLayout['ridge'] {
  if (shaft === null) return null;
  const sectionAt = sectionsOn(shaft);
  return [
    [from, -(sectionAt(from).depth + rise)],
    [point, -sectionAt(point).depth],
  ];
}
