/** Does the board hold the channel that its binding is let into? */
import { boardEnd, boardStart, edgeThickness } from './boardShape.ts';
import { type Check, check, HAIR, leaves, mm, when, wrong } from './check.ts';

/** Least wood under a channel (common practice, no source). */
const LEAST_LEFT = 1;

const channelLeavesWood = check(['scale', 'frets', 'fingerboard', 'nut', 'bridge'], (sections) => {
  const depth = sections.fingerboard.binding?.channelDepth ?? null;
  if (depth === null) return [];
  const edge = Math.min(...[boardStart(sections), boardEnd(sections)].map((x) => edgeThickness(sections, x)));
  return when(edge - depth < LEAST_LEFT - HAIR && Number.isFinite(edge), () =>
    wrong(
      'channel-too-deep',
      'fingerboard.binding.channelDepth',
      `The board's edge is ${mm(edge)} thick where it is thinnest; ${leaves(edge - depth, 'the channel for the binding')}.`,
      {
        allowed: `at most ${mm(Math.max(0, edge - LEAST_LEFT))}`,
        remedy: 'A shallower channel; or leave channelDepth out for strips as high as the board.',
      },
    ),
  );
});

const slotsClearFloor = check(['fingerboard', 'frets'], ({ fingerboard, frets }) => {
  const depth = fingerboard.binding?.channelDepth ?? null;
  if (depth === null || fingerboard.slotsStopShort > 0) return [];
  return when(depth < frets.slotDepth - HAIR, () =>
    wrong(
      'channel-shallower-than-slots',
      'fingerboard.binding.channelDepth',
      `Slots ${mm(frets.slotDepth)} deep run out through the wall of a channel ${mm(depth)} deep and into its floor.`,
      {
        allowed: `at least ${mm(frets.slotDepth)}`,
        remedy: 'A deeper channel, or slots that stop in the wood (slotsStopShort).',
      },
    ),
  );
});

const stripsFollowEnd = check(['fingerboard'], ({ fingerboard: { binding, endArtwork } }) =>
  when(binding?.around === 'sides and end' && endArtwork !== null, () =>
    wrong(
      'binding-round-drawn-end',
      'fingerboard.binding.around',
      'A strip does not follow an end of your own drawing.',
      { allowed: 'sides', remedy: 'Bind the sides alone, or let the end be a line or an arc.' },
    ),
  ),
);

export const bindingChecks: readonly Check[] = [stripsFollowEnd, channelLeavesWood, slotsClearFloor];
