/** Where round a tool its bite is looked at. */
import { type Piece, xAt, yAt } from './piece.ts';

const ALL_ROUND: readonly (readonly [number, number])[] = Array.from({ length: 8 }, (_, k) => [
  Math.cos((k * Math.PI) / 4),
  Math.sin((k * Math.PI) / 4),
]);

/** Ahead, to both sides and halfway between; all round for a plunge. */
export function lookDirections(piece: Piece, t: number): readonly (readonly [number, number])[] {
  const step = t < 0.5 ? 1e-3 : -1e-3;
  const dx = (xAt(piece, t + step) - xAt(piece, t)) * Math.sign(step);
  const dy = (yAt(piece, t + step) - yAt(piece, t)) * Math.sign(step);
  const length = Math.hypot(dx, dy);
  if (length === 0) {
    return ALL_ROUND;
  }
  const [ux, uy] = [dx / length, dy / length];
  const [vx, vy] = [Math.SQRT1_2 * (ux - uy), Math.SQRT1_2 * (ux + uy)];
  return [
    [ux, uy],
    [-uy, ux],
    [uy, -ux],
    [vx, vy],
    [vy, -vx],
  ];
}
