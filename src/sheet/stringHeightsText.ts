/** Heights of the strings over the frets, and the room they have to swing. */
import type { Stringing, StringPull } from '../stringing/types.ts';
import { formatMm } from '../units/format.ts';
import { type Column, textTable } from './textTable.ts';

const right = (...head: string[]): Column => ({ head, align: 'right' });
const nameOf = (pull: StringPull): string => `${pull.position} ${pull.pitch}`;

/** A table of heights in mm, nut to saddle, and the tightest note of each string. */
export function heightLines(s: Stringing): string[] {
  const heads: Column[] = [
    { head: ['open string over'], align: 'left' },
    ...s.strings.map(({ pull }) => right(nameOf(pull))),
  ];
  const row = (name: string, of: (i: number) => number): string[] => [
    name,
    ...s.strings.map((_, i) => formatMm(of(i), 2)),
  ];
  const frets = s.strings[0]?.heights.overFrets.length ?? 0;
  const at = (i: number) => {
    const report = s.strings[i];
    if (report === undefined) throw new Error(`no string ${i + 1}`);
    return report.heights;
  };
  const rows = [
    row('plane at the nut', (i) => at(i).atNut),
    ...Array.from({ length: frets }, (_, k) => row(`fret ${s.fretNames[k]}`, (i) => at(i).overFrets[k] ?? 0)),
    row('plane at saddle', (i) => at(i).atSaddle),
    row('room, open', (i) => at(i).openRoom),
    row('room, least', (i) => at(i).tightest.room),
  ];
  const named = (place: number): string => (place === 0 ? '0' : (s.fretNames[place - 1] ?? ''));
  const tightest = s.strings.map(
    ({ pull, heights: { tightest: t } }) =>
      `${nameOf(pull)} stopped at ${named(t.stoppedAt)}${t.touches === null ? '' : ` touches ${named(t.touches)}`}`,
  );
  return [
    'Heights of the open strings in mm, above the fret tops; "plane" is that through the fret tops at scale zero and where the bow ends.',
    ...textTable(heads, rows),
    `Room is how far the string may be drawn ${formatMm(s.pluckAt, 0)} mm before the saddle without touching a fret when let go. Least room: ${tightest.join('; ')}.`,
  ];
}
