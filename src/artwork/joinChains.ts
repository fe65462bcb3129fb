import type { Vec } from '../geometry/types.ts';
import { type Curve, pointAt } from './curves.ts';
import type { Chain } from './types.ts';

/** Ends this close are one: drawings are rounded to about a thousandth. Millimetres. */
export const MEETS = 0.005;

/** Open chains whose ends meet, put together end to end; closed ones stay as they are. */
export function joinChains(chains: readonly Chain[]): Chain[] {
  const done = chains.filter(isClosed).map((chain) => ({ ...chain, closed: true }));
  let open = chains.filter((chain) => !isClosed(chain));
  while (open.length > 0) {
    const [first, ...others] = open;
    if (first === undefined) break;
    const { grown, left } = grow(first, others);
    done.push(grown);
    open = left;
  }
  return done;
}

/** Whether a chain is closed by its word or by its ends. */
export function isClosed(chain: Chain): boolean {
  return chain.closed || meets(startOf(chain), endOf(chain));
}

/** First point of a chain. */
export function startOf({ curves }: Chain): Vec {
  return pointAt(firstOf(curves), 0);
}

/** Last point of a chain. */
export function endOf({ curves }: Chain): Vec {
  return pointAt(firstOf(curves.slice(-1)), 1);
}

function grow(chain: Chain, others: readonly Chain[]): { grown: Chain; left: Chain[] } {
  let grown = chain;
  const left = [...others];
  while (!meets(startOf(grown), endOf(grown)) || grown.curves.length === 0) {
    const end = endOf(grown);
    const next = left.findIndex((other) => meets(startOf(other), end) || meets(endOf(other), end));
    const other = left[next];
    if (other === undefined) return { grown, left };
    left.splice(next, 1);
    const follows = meets(startOf(other), end) ? other.curves : other.curves.toReversed().map(reversed);
    grown = { ...grown, curves: [...grown.curves, ...follows] };
  }
  return { grown: { ...grown, closed: true }, left };
}

function reversed(curve: Curve): Curve {
  switch (curve.kind) {
    case 'line':
      return { kind: 'line', from: curve.to, to: curve.from };
    case 'cubic': {
      const [a, b, c, d] = curve.p;
      return { kind: 'cubic', p: [d, c, b, a] };
    }
    case 'ellipse':
      return { ...curve, from: curve.from + curve.sweep, sweep: -curve.sweep };
  }
}

function meets(a: Vec, b: Vec): boolean {
  return Math.hypot(a[0] - b[0], a[1] - b[1]) <= MEETS;
}

function firstOf(curves: readonly Curve[]): Curve {
  const [curve] = curves;
  if (curve === undefined) throw new Error('a chain without curves');
  return curve;
}
