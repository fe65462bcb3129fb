import type { Layout } from '../../layout/types.ts';
import type { Part } from '../../parts/types.ts';
import type { Instrument } from '../../profile/types.ts';
import type { Hole } from './hole.ts';

/** Holes in the neck and its head: the board's index pins once more, then each tuner's bushing and hole. */
export function neckHoles(layout: Layout, parts: readonly Part[], instrument: Instrument): Hole[] {
  const neck = parts.find((part) => part.id === 'neck-blank');
  const pins = (neck?.features ?? []).flatMap((f): Hole[] =>
    f.kind !== 'hole'
      ? []
      : [
          {
            id: f.id,
            what: 'index pin, in the neck',
            from: 'face of the neck that the board is glued to',
            x: f.at[0],
            y: f.at[1],
            below: null,
            diameter: f.diameter,
            depth: f.depth,
            through: f.through,
          },
        ],
  );
  return [...pins, ...tunerHoles(layout, instrument)];
}

function tunerHoles({ neck }: Layout, { headstock, strings }: Instrument): Hole[] {
  if (headstock === null || neck?.head == null) return [];
  const { tuners, thickness, veneer } = headstock;
  const deep = thickness + (veneer?.thickness ?? 0);
  return neck.head.posts.flatMap((post): Hole[] => {
    const common = {
      from: 'face of the head, x along it as if it were unfolded into the plane of the neck',
      x: post.at[0],
      y: post.at[1],
      below: null,
    };
    const string = `string ${post.string} (${strings[post.string - 1]?.pitch})`;
    const reamed = tuners.reamerTaper === null ? '' : ', reamed by trying the peg';
    const bushing = tuners.bushing;
    return [
      ...(bushing === null
        ? []
        : [
            {
              ...common,
              id: `${post.id}-bushing`,
              what: `tuner bushing, ${string}`,
              diameter: bushing.diameter,
              depth: bushing.depth,
              through: false,
            },
          ]),
      {
        ...common,
        id: post.id,
        what: `tuner, ${string}${reamed}`,
        diameter: tuners.hole,
        depth: deep,
        through: true,
      },
    ];
  });
}
