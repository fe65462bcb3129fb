/** One instrument by lot: checked, laid out for both hands, made and proven; what is not as it should be, in words. */
import { makeJob } from '../../src/app/make.ts';
import { layOut } from '../../src/layout/layOut.ts';
import { loadInstrument } from '../../src/profile/loadInstrument.ts';
import type { Instrument } from '../../src/profile/types.ts';
import { crossing, differences, mirrored, offTheBoard, placesOf } from './boardGeometry.ts';
import type { JobByLot } from './randomInstrument.ts';

export interface Trial {
  readonly made: boolean;
  /** Empty when all is well. */
  readonly wrong: readonly string[];
  readonly programs: number;
  readonly slots: number;
  readonly slanted: boolean;
  readonly left: boolean;
  readonly bound: boolean;
}

/** Makes a job and looks at all that must hold of it. */
export function tryInstrument({ profile, shop, flaw }: JobByLot): Trial {
  const loaded = loadInstrument(profile, 'by-lot.yaml');
  const result = makeJob({
    profile: { path: 'by-lot.yaml', text: profile },
    shop: { path: 'profiles/shop.yaml', text: shop.text },
    readInclude: shop.readInclude,
  });
  const errors = result.findings.filter((f) => f.severity === 'error');
  if (!result.ok || !loaded.ok) {
    const isForeseen = flaw !== null && errors.some((f) => f.code === flaw);
    const wrong = isForeseen ? [] : errors.map((f) => `${f.code}: ${f.text}`);
    return { made: false, wrong, programs: 0, slots: 0, slanted: false, left: false, bound: false };
  }
  const instrument = loaded.value.value;
  const { slots, wrong } = boardFaults(instrument);
  const unproven = result.value.programs.filter((p) => !p.proof.passed).map((p) => `${p.path} is not proven`);
  return {
    made: true,
    wrong: [...wrong, ...unproven, ...(flaw === null ? [] : [`made, in spite of ${flaw}`])],
    programs: result.value.programs.length,
    slots,
    slanted: instrument.scale.slant !== null,
    left: instrument.hand === 'left',
    bound: instrument.fingerboard.binding !== null,
  };
}

/** Slots that meet or lie elsewhere than meant, and places that the other hand's board does not mirror exactly. */
function boardFaults(instrument: Instrument): { readonly slots: number; readonly wrong: string[] } {
  const layout = layOut(instrument);
  const other = layOut({ ...instrument, hand: instrument.hand === 'left' ? 'right' : 'left' });
  if (!layout.ok || !other.ok) throw new Error('an instrument that was made is not laid out');
  const apart = differences(placesOf(other.value), mirrored(placesOf(layout.value)));
  return {
    slots: layout.value.slots.length,
    wrong: [
      ...crossing(layout.value.slots),
      ...offTheBoard(layout.value, instrument),
      ...apart.map((name) => `${name} is not mirrored exactly`),
    ],
  };
}
