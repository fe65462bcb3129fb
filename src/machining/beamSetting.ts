import type { Part } from '../parts/types.ts';
import type { BeamSetting, Laser } from '../profile/types.ts';
import type { Finding } from '../report/finding.ts';
import { formatShort } from '../units/format.ts';

/** A setting for one thickness, and in words where it comes from. */
export interface Chosen {
  readonly setting: BeamSetting;
  readonly source: string;
}

/** Thicknesses closer than this are one. */
const SAME = 1e-6;

/**
 * The shop's tested setting for a part's material and thickness; between two tested thicknesses of the same material, all
 * figures in proportion between the nearest two. Beyond them nothing is guessed.
 */
export function settingFor(part: Part, laser: Laser): Chosen | Finding {
  const { thickness } = part.blank;
  const tested = laser.settings.filter((s) => s.materialClass === part.materialClass);
  const exact = tested.find((s) => Math.abs(s.thickness - thickness) <= SAME);
  if (exact !== undefined)
    return { setting: exact, source: 'what the shop tested for this material and thickness' };
  const sorted = [...tested].sort((a, b) => a.thickness - b.thickness);
  const thinner = sorted.findLast((s) => s.thickness < thickness);
  const thicker = sorted.find((s) => s.thickness > thickness);
  if (thinner === undefined || thicker === undefined) return untested(part, laser);
  if (thinner.cut.passes !== thicker.cut.passes) return otherPasses(part, laser, thinner, thicker);
  return {
    setting: interpolated(thinner, thicker, thickness),
    source: sourceOf(thinner, thicker, laser.fullPower),
  };
}

function interpolated(a: BeamSetting, b: BeamSetting, thickness: number): BeamSetting {
  const share = (thickness - a.thickness) / (b.thickness - a.thickness);
  const mix = (from: number, to: number): number => from + (to - from) * share;
  return {
    materialClass: a.materialClass,
    thickness,
    kerf: mix(a.kerf, b.kerf),
    cut: {
      power: mix(a.cut.power, b.cut.power),
      speed: mix(a.cut.speed, b.cut.speed),
      passes: a.cut.passes,
      pierce: mix(a.cut.pierce, b.cut.pierce),
      leadIn: mix(a.cut.leadIn, b.cut.leadIn),
      overCut: mix(a.cut.overCut, b.cut.overCut),
    },
    mark: { power: mix(a.mark.power, b.mark.power), speed: mix(a.mark.speed, b.mark.speed) },
    air: a.air === b.air ? a.air : [a.air, b.air].filter((air) => air !== null).join(' or '),
  };
}

function sourceOf(a: BeamSetting, b: BeamSetting, fullPower: number): string {
  const words = ({ thickness, cut, kerf }: BeamSetting): string =>
    `${formatShort(thickness, 2)} mm (S${formatShort(cut.power * fullPower, 0)}, ${formatShort(cut.speed, 0)} mm/min, kerf ${formatShort(kerf, 3)} mm)`;
  return `between two thicknesses the shop tested, in proportion: ${words(a)} and ${words(b)}; cut a test piece`;
}

function untested(part: Part, laser: Laser): Finding {
  const tested = laser.settings.map((s) => `${s.materialClass} ${s.thickness} mm`).join(', ');
  return {
    code: 'no-tested-setting',
    severity: 'error',
    where: { source: 'shop', path: 'machines' },
    text: `${laser.name} has no tested setting for ${part.materialClass} ${part.blank.thickness} mm (${part.title}), nor one thinner and one thicker.`,
    allowed:
      tested === '' ? 'a tested setting' : `one of: ${tested}, or a thickness between two of one material`,
    remedy: 'cut a test piece, add what worked to the laser’s settings, or let this work be done by hand',
  };
}

function otherPasses(part: Part, laser: Laser, a: BeamSetting, b: BeamSetting): Finding {
  return {
    code: 'no-tested-setting',
    severity: 'error',
    where: { source: 'shop', path: 'machines' },
    text: `${laser.name} cuts ${part.materialClass} of ${a.thickness} mm in ${a.cut.passes} and of ${b.thickness} mm in ${b.cut.passes} passes; nothing lies between the two for ${part.blank.thickness} mm (${part.title}).`,
    allowed: 'a tested setting, or two with the same number of passes to go between',
    remedy: 'cut a test piece of this thickness and add what worked to the laser’s settings',
  };
}
