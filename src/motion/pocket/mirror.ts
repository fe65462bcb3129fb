import type { Move } from '../types.ts';

/** The same moves with y turned over; arcs in the plan turn the other way round. */
export function mirrorMoves(moves: readonly Move[]): Move[] {
  return moves.map(mirrorMove);
}

function mirrorMove(move: Move): Move {
  switch (move.kind) {
    case 'rapid':
    case 'feed':
      return move.y === undefined ? move : { ...move, y: -move.y };
    case 'arc':
      if (move.plane !== 'xy') throw new Error(`an arc in ${move.plane} cannot be turned over`);
      return {
        ...move,
        clockwise: !move.clockwise,
        to: { ...move.to, y: -move.to.y },
        centre: { ...move.centre, y: -move.centre.y },
      };
    case 'drill':
      return { ...move, y: -move.y };
    case 'spindle':
    case 'spindle off':
    case 'dwell':
    case 'beam':
    case 'beam off':
    case 'comment':
      return move;
  }
}
