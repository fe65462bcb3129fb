import type { OutlineOperation, RouterJob } from '../../machining/types.ts';
import { bothUnits } from './markdown.ts';

type Row = readonly [what: string, value: string];

/** A row that says what holds the parts of a program and how they are freed; none where nothing is cut free. */
export function holdingRows({ operations, setup }: RouterJob): Row[] {
  const outlines = operations.filter((o) => o.kind === 'outline');
  const [first] = outlines;
  if (first === undefined) return [];
  return [['Held by', first.skin === null ? tabWords(outlines) : skinWords(first.skin, -setup.stock.bottom)]];
}

function tabWords(outlines: readonly OutlineOperation[]): string {
  const tabs = outlines.flatMap((o) => o.tabs);
  const [first] = tabs;
  if (first === undefined) return 'nothing: the part is loose at its last cut';
  return `${tabs.length} tabs ${bothUnits(first.length)} long and ${bothUnits(first.height)} high: once the spindle stands still, cut them with a knife or a fine saw, then pare and sand them flush`;
}

function skinWords(skin: number, thickness: number): string {
  return (
    `a skin of ${bothUnits(skin)} under the cut all round; the outline does not go into the board below. ` +
    `A blank of less than ${bothUnits(thickness - skin)} is cut through and comes loose, and one that rises off its board has no even skin: ` +
    'hold it down all over. Once the spindle stands still, free the part with a knife along the bottom of the groove, then pare and sand what is left flush'
  );
}
