import { formSize } from '../geometry/form.ts';
import type { Instrument } from '../profile/types.ts';
import { errorFinding } from '../report/collect.ts';
import type { Finding } from '../report/finding.ts';
import type { Layout } from './types.ts';

/** Whether every part for a pocket has room on one piece of its material, with waste all round. */
export function checkInlays({ faceMarkers }: Layout, instrument: Instrument): Finding[] {
  const { inlays } = instrument.faceMarkers;
  if (inlays === null) return [];
  const [long, short] = [inlays.blank.length, inlays.blank.width].sort((a, b) => b - a) as [number, number];
  return faceMarkers.flatMap(({ id, form }) => {
    const { along, across } = formSize(form);
    const [most, least] = [Math.max(along, across), Math.min(along, across)];
    const waste = 2 * inlays.between;
    if (most + waste <= long + 1e-9 && least + waste <= short + 1e-9) return [];
    return [
      errorFinding(
        'inlay-larger-than-piece',
        `The part for ${id}, ${most.toFixed(1)} by ${least.toFixed(1)} mm, has no room on one piece of its material with ${inlays.between} mm of waste round it.`,
        {
          where: { source: 'instrument', path: 'faceMarkers.inlays.blank' },
          found: `${long} by ${short} mm`,
          allowed: `at least ${(most + waste).toFixed(1)} by ${(least + waste).toFixed(1)} mm`,
          remedy: 'Larger pieces, less waste between parts, or a smaller marker.',
        },
      ),
    ];
  });
}
