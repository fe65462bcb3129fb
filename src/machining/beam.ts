import { translate } from '../geometry/ring.ts';
import type { Ring } from '../geometry/types.ts';
import type { LineFeature, OutlineFeature, SlotFeature } from '../parts/types.ts';
import type { BeamSetting } from '../profile/types.ts';
import { leadInFor, startOn } from './leadIn.ts';
import { toProgram } from './setup.ts';
import type { BeamCutOperation, BeamLineOperation, BeamOperation, Setup } from './types.ts';

/** Lines first, then openings, then outlines: nothing is loose before its last cut. */
export function planBeam(
  features: readonly (LineFeature | OutlineFeature | SlotFeature)[],
  setup: Setup,
  setting: BeamSetting,
): BeamOperation[] {
  const lines = features.filter((f) => f.kind !== 'outline').map((f) => beamLine(f, setup));
  const outlines = features.filter((f) => f.kind === 'outline');
  const cuts = outlines.map((o) => beamCut(o, outlines, setup, setting));
  return [...lines, ...cuts.filter((c) => c.keep === 'outside'), ...cuts.filter((c) => c.keep === 'inside')];
}

/** A slot becomes a mark to saw on: its own feature, as the sawing is another step. */
function beamLine(feature: LineFeature | SlotFeature, setup: Setup): BeamLineOperation {
  const points = feature.kind === 'line' ? feature.points : feature.line;
  const id = feature.kind === 'line' ? feature.id : `mark-${feature.id}`;
  return { id, feature: id, kind: 'beam line', points: points.map((p) => toProgram(p, setup.shift)) };
}

function beamCut(
  outline: OutlineFeature,
  all: readonly OutlineFeature[],
  setup: Setup,
  setting: BeamSetting,
): BeamCutOperation {
  const ringOf = (o: OutlineFeature): Ring => translate(o.ring, [-setup.shift[0], -setup.shift[1]]);
  const ring = ringOf(outline);
  const { keep } = outline;
  return {
    id: outline.id,
    feature: outline.id,
    kind: 'beam cut',
    ring,
    keep,
    start: startOn(ring).at,
    leadIn: leadInFor(setting.cut.leadIn, {
      ring,
      keep,
      kerf: setting.kerf,
      others: all.filter((o) => o !== outline).map(ringOf),
      stock: setup.stock.region.outer,
    }),
  };
}
