import type { Anchor } from '../profile/types.ts';

/** What a bench calls that which holds the strings behind the saddle. */
export interface AnchorWords {
  readonly many: string;
  /** What skew and centring are measured to. */
  readonly checkedAt: string;
  /** Head of a column of places. */
  readonly column: string;
}

const WORDS: Readonly<Record<Anchor['kind'], AnchorWords>> = {
  pins: { checkedAt: 'pin', many: 'bridge pins', column: 'pin' },
  tied: { checkedAt: 'tie hole', many: 'holes of the tie block', column: 'tie hole' },
  through: { checkedAt: 'string hole', many: 'string holes', column: 'hole' },
  tailpiece: {
    checkedAt: 'string’s point on the saddle',
    many: 'strings at the tailpiece',
    column: 'tailpiece',
  },
};

/** @example anchorWords('pins').column // 'pin' */
export const anchorWords = (kind: Anchor['kind']): AnchorWords => WORDS[kind];
