import { translate } from '../geometry/ring.ts';
import type { LineFeature, OutlineFeature, Part, SlotFeature } from '../parts/types.ts';
import type { BeamSetting, Laser } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { toProgram } from './setup.ts';
import type { BeamCutOperation, BeamLineOperation, BeamOperation, Setup } from './types.ts';

/** Thicknesses a tested setting is good for (common practice, no source). */
const THICKNESS_SLACK = 0.3;

/** The shop's tested setting for a part's material and thickness, or what to say when there is none. */
export function settingFor(part: Part, laser: Laser): BeamSetting | Finding {
  const found = laser.settings
    .filter((s) => s.materialClass === part.materialClass)
    .filter((s) => Math.abs(s.thickness - part.blank.thickness) <= THICKNESS_SLACK)
    .sort((a, b) => off(a, part) - off(b, part))[0];
  if (found !== undefined) return found;
  const tested = laser.settings.map((s) => `${s.materialClass} ${s.thickness} mm`).join(', ');
  return {
    code: 'no-tested-setting',
    severity: 'error',
    where: { source: 'shop', path: 'machines' },
    text: `${laser.name} has no tested setting for ${part.materialClass} ${part.blank.thickness} mm (${part.title}).`,
    allowed: tested === '' ? 'a tested setting' : `one of: ${tested}`,
    remedy: 'cut a test piece, add what worked to the laser’s settings, or let this work be done by hand',
  };
}

function off(setting: BeamSetting, part: Part): number {
  return Math.abs(setting.thickness - part.blank.thickness);
}

/** Lines first, then openings, then outlines: nothing is loose before its last cut. */
export function planBeam(
  features: readonly (LineFeature | OutlineFeature | SlotFeature)[],
  setup: Setup,
): BeamOperation[] {
  const lines = features.filter((f) => f.kind !== 'outline').map((f) => beamLine(f, setup));
  const outlines = features.filter((f) => f.kind === 'outline');
  const openings = outlines.filter((o) => o.keep === 'outside');
  const kept = outlines.filter((o) => o.keep === 'inside');
  return [...lines, ...openings.map((o) => beamCut(o, setup)), ...kept.map((o) => beamCut(o, setup))];
}

/** A slot becomes a mark to saw on: its own feature, as the sawing is another step. */
function beamLine(feature: LineFeature | SlotFeature, setup: Setup): BeamLineOperation {
  const points = feature.kind === 'line' ? feature.points : feature.line;
  const id = feature.kind === 'line' ? feature.id : `mark-${feature.id}`;
  return { id, feature: id, kind: 'beam line', points: points.map((p) => toProgram(p, setup.shift)) };
}

function beamCut(outline: OutlineFeature, setup: Setup): BeamCutOperation {
  return {
    id: outline.id,
    feature: outline.id,
    kind: 'beam cut',
    ring: translate(outline.ring, [-setup.shift[0], -setup.shift[1]]),
    keep: outline.keep,
  };
}
