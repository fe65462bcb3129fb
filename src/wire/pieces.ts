import { boardHeight } from '../geometry/boardSurface.ts';
import type { Vec } from '../geometry/types.ts';
import { between, distance } from '../geometry/vec.ts';
import type { Layout, SlotCut } from '../layout/types.ts';
import type { WirePiece } from './types.ts';

/** Chords that a curve is measured by; twice as many fall short of it by a quarter as much, so the rest is taken off. */
const CHORDS = 32;

/** By how much a tang keeps clear of the end of a slot that stops in the wood (common practice, no source). */
const TANG_PLAY = 0.5;

/** A piece of wire for each slot, nut side first, `trim` longer than its crown. */
export function wirePieces(layout: Layout, trim: number): WirePiece[] {
  return layout.slots.map((slot, i) => {
    const groove = layout.slotCuts[i];
    if (groove?.id !== slot.id) throw new Error(`the cut of ${slot.id} is ${groove?.id}`);
    const crown = lengthOver(layout, slot.line);
    return {
      fret: slot.fret,
      label: slot.label,
      slot: slot.id,
      straight: distance(...slot.line),
      crown,
      tang: lengthOver(layout, groove.line) - TANG_PLAY * stopsOf(groove),
      cut: crown + trim,
    };
  });
}

function stopsOf({ ends }: SlotCut): number {
  return ends.filter((end) => end === 'stopped').length;
}

/** Length of a line drawn on the board's curved surface, given as seen from above; good to 1e-6 mm on any board. */
function lengthOver(layout: Layout, line: readonly [Vec, Vec]): number {
  return (4 * lengthOfChords(layout, line, 2 * CHORDS) - lengthOfChords(layout, line, CHORDS)) / 3;
}

function lengthOfChords(layout: Layout, [from, to]: readonly [Vec, Vec], count: number): number {
  let length = 0;
  let [before, height] = [from, heightAt(layout, from)];
  for (let k = 1; k <= count; k += 1) {
    const point = between(from, to, k / count);
    const z = heightAt(layout, point);
    length += Math.hypot(distance(before, point), z - height);
    [before, height] = [point, z];
  }
  return length;
}

function heightAt({ board }: Layout, [x, y]: Vec): number {
  return boardHeight(board.surface, x, y);
}
