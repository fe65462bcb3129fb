import type { Layout } from '../../layout/types.ts';
import type { Part } from '../../parts/types.ts';
import type { Instrument } from '../../profile/types.ts';
import { formatShort } from '../../units/format.ts';
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
  return [...pins, ...tunerHoles(layout, instrument), ...boltHoles(layout, instrument)];
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

/** Through the block of the body from the mortise's floor, and into the end of the tenon, square to the joint. */
function boltHoles({ neck }: Layout, { neckJoint }: Instrument): Hole[] {
  const fit = neck?.fit ?? null;
  const bolts = neckJoint?.tenon?.bolts ?? null;
  if (fit === null || bolts === null) return [];
  return fit.bolts.flatMap(({ id, down }): Hole[] => [
    {
      id: `${id}-insert`,
      what: 'insert in the tenon; below counts from the face that the board is glued to',
      from: 'end of the tenon',
      x: fit.joint + fit.length,
      y: 0,
      below: down,
      diameter: bolts.insert,
      depth: bolts.insertDepth,
      through: false,
    },
    {
      id: `${id}-block`,
      what: `bolt through the block; below counts from the face that the board is glued to, ${formatShort(fit.topAt, 3)} mm above the plane of the top`,
      from: 'floor of the mortise',
      x: fit.joint + fit.mortiseDepth,
      y: 0,
      below: down,
      diameter: bolts.hole,
      depth: fit.block.length - fit.mortiseDepth,
      through: true,
    },
  ]);
}
