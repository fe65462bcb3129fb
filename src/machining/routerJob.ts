import type { Part } from '../parts/types.ts';
import type { Router } from '../profile/types.ts';
import type { ToolWork } from './features.ts';
import { chooseFeeds } from './feeds.ts';
import type { Unordered } from './programOrder.ts';
import type { Setup } from './types.ts';

/** What a router's program is made for, besides its tool and operations. */
export interface RouterWork {
  readonly program: string;
  readonly part: Part;
  readonly operation: string;
  readonly setup: Setup;
  readonly router: Router;
  /** How far below the stock's bottom a through cut goes. */
  readonly below: number;
}

/** A router's job of one tool. */
export function routerJob(
  { tool, operations }: ToolWork,
  { program, part, operation, setup, router, below }: RouterWork,
): Unordered & { readonly kind: 'router' } {
  return {
    kind: 'router',
    program,
    part,
    operation,
    setup,
    machine: router,
    tool,
    feeds: chooseFeeds(tool, part.materialClass, router, operations),
    below,
    operations,
  };
}
