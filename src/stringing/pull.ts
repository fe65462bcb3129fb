/** What each string weighs, how hard it pulls, how it feels and how it bears on the saddle. */
import { setUpOf } from '../physics/board.ts';
import { bodyOf, coreStress } from '../physics/construction.ts';
import { bendAtMiddle } from '../physics/feel.ts';
import { openLength, saddleHeightAt } from '../physics/frettedLength.ts';
import { openString } from '../physics/intonation.ts';
import {
  type BreakAngles,
  downBearing,
  mersenneHertz,
  mersenneTension,
  tensionPerCent,
} from '../physics/tension.ts';
import type { Instrument } from '../profile/types.ts';
import type { StringCase } from './cases.ts';
import type { StringPull } from './types.ts';

const WHOLE_TONE = 200;

/** A string's pull where the profile's saddle is, tuned to `hertz` (its own pitch when left out). */
export function pullOf(
  instrument: Instrument,
  given: StringCase,
  position: number,
  tuned: { readonly pitch: string; readonly hertz: number } = given.string,
): StringPull {
  const { string, construction } = given;
  const { pitch, hertz } = tuned;
  const setUp = setUpOf(given.bench);
  const body = bodyOf(construction);
  const length = openLength(setUp, string.setBack);
  const open = openString(setUp, { kind: 'built', body, hertz }, string.setBack);
  const tension = mersenneTension(body.massPerMetre, length, hertz);
  const stress = coreStress(tension, construction.core);
  const breakAngles = breakAnglesOf(instrument, given);
  return {
    position,
    pitch,
    hertz,
    gauge: string.gauge,
    make: string.make,
    core: construction.core,
    coreGiven: string.build.coreGiven,
    material: string.build.material,
    wrap: string.build.wrap,
    massPerMetre: body.massPerMetre,
    weighed: string.build.massPerMetre !== null,
    length,
    tension,
    stress,
    strength: given.strength,
    strengthSure: strengthSure(given),
    breaksAtHertz: mersenneHertz(body.massPerMetre, length, (tension * given.strength) / stress),
    stretch: open.stretch,
    stiffness: open.stiffness,
    perCent: tensionPerCent(tension),
    wholeTone: bendAtMiddle({ length, tension, stretch: open.stretch }, WHOLE_TONE),
    breakAngles,
    downBearing: downBearing(tension, breakAngles),
  };
}

/** Wire strengths are tabled; those of other materials are from memory, and a core that was guessed decides nothing. */
const strengthSure = ({ string: { build } }: StringCase): boolean =>
  build.coreGiven && (build.material === 'steel' || build.strength !== null);

/**
 * Slopes before and behind the saddle, against the plane of the fret tops; the bridge's face is taken as parallel to it.
 * Behind, the string falls by the saddle's height and as far below the bridge's face as what holds it lies: the ramp's depth on its
 * way to the near edge of a hole from above, the hole of a tie block, the tailpiece.
 */
function breakAnglesOf({ bridge }: Instrument, { bench, string, toPin }: StringCase): BreakAngles {
  const setUp = setUpOf(bench);
  const rise = saddleHeightAt(setUp, string.setBack) - setUp.nutHeight;
  return {
    front: Math.atan2(rise, setUp.scale + string.setBack - setUp.nutForward),
    back: Math.atan2(bridge.saddle.height + belowFace(bridge), toPin),
  };
}

function belowFace({ anchor, saddle }: Instrument['bridge']): number {
  return anchor.kind === 'tied' || anchor.kind === 'tailpiece' ? anchor.below : saddle.ramp;
}
