/**
 * Pages to work down at the bench, without a format: headings, sentences, tables with room to tick and to write.
 *
 * In: numbers of sheet, strings, bridge and neck. Out: words. Writers turn them into paper, a page for a browser, Markdown.
 */

/** What stands in a cell: words, or room for a pencil. `tick` is a box, `value` a line to write a measured figure on. */
export type PageCell = string | { readonly leave: 'tick' | 'value' };

export interface PageColumn {
  readonly head: string;
  readonly align: 'left' | 'right';
}

export interface PageTable {
  readonly kind: 'table';
  /** What the table is, for who cannot see it. */
  readonly name: string;
  readonly columns: readonly PageColumn[];
  readonly rows: readonly (readonly PageCell[])[];
}

export type PageBlock =
  | { readonly kind: 'heading'; readonly text: string; readonly level: 2 | 3 }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Each with a box in front. */
  | { readonly kind: 'ticks'; readonly items: readonly string[] }
  /** Where to stop, or what can hurt. */
  | { readonly kind: 'stop' | 'caution'; readonly title: string; readonly text: string }
  | PageTable;

export interface Page {
  readonly title: string;
  /** Sentences under the title. */
  readonly head: readonly string[];
  /** At the foot of every sheet: which profile these numbers are from. */
  readonly foot: string;
  readonly blocks: readonly PageBlock[];
}
