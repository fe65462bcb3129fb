import type { Setup } from '../machining/types.ts';
import type { Top } from '../parts/types.ts';

/** The top of a stock that holes and slots go into. Throws for the back of a neck: nothing is planned into it. */
export function boardTop({ stock: { top } }: Setup): Top {
  if (top.kind === 'shaft') throw new Error('a hole or a slot in the carved back of a neck');
  return top;
}
