import { bounds } from '../geometry/ring.ts';
import type { Feature, OutlineFeature, Part } from '../parts/types.ts';
import type { Laser } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';
import { partsTooClose } from './apart.ts';

/** What a kerf has no room for: between parts, beside the panel's edge, inside an opening. Millimetres. */
export function beamRoom(part: Part, features: readonly Feature[], kerf: number, laser: Laser): Finding[] {
  const outlines = features.filter((f) => f.kind === 'outline');
  const close = partsTooClose(
    outlines.filter((o) => o.keep === 'inside').map((o) => o.ring),
    kerf,
    part.title,
  );
  const findings = outlines.flatMap((o) =>
    o.keep === 'outside' ? openingTooNarrow(o, kerf, laser) : edgeTooNear(o, part, kerf, laser),
  );
  return [...(close === null ? [] : [close]), ...findings.slice(0, 1)];
}

/** The middle of the beam runs half a kerf inside an opening; something must be left of it. */
function openingTooNarrow({ id, ring }: OutlineFeature, kerf: number, laser: Laser): Finding[] {
  const { x, y } = bounds(ring);
  const width = Math.min(x[1] - x[0], y[1] - y[0]);
  if (width > kerf) return [];
  return [
    {
      code: 'kerf-wider-than-opening',
      severity: 'error',
      where: { source: 'shop', path: 'machines' },
      text: `The opening ${id} is ${mm(width)} wide, and the kerf of ${laser.name} ${mm(kerf)}: the beam alone makes it too wide.`,
      allowed: `a kerf of less than ${mm(width)}`,
      remedy:
        'measure the kerf again, or let another machine or the hand do this work (work: in the shop file)',
    },
  ];
}

/** The beam runs half a kerf outside a part, and a laser does not go below the corner of its bed. */
function edgeTooNear({ ring }: OutlineFeature, part: Part, kerf: number, laser: Laser): Finding[] {
  const [inner, outer] = [bounds(ring), part.blank.box];
  const room = Math.min(inner.x[0] - outer.x[0], inner.y[0] - outer.y[0]);
  if (room >= kerf / 2 - 1e-9) return [];
  return [
    {
      code: 'no-room-for-kerf',
      severity: 'error',
      where: { source: 'shop', path: 'allowances.between' },
      text: `The outline of ${part.title.toLowerCase()} lies ${mm(room)} from the panel’s edge, where ${laser.name} has its zero: the beam would have to run ${mm(kerf / 2)} outside it.`,
      allowed: `at least ${mm(kerf)}`,
      remedy: 'widen allowances.between',
    },
  ];
}

const mm = (length: number): string => `${formatShort(length, 3)} mm`;
