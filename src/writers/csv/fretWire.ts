import { inchesFromMm } from '../../units/convert.ts';
import type { WirePiece, WirePlan } from '../../wire/types.ts';
import { type CsvCell, type CsvColumn, writeTable } from './table.ts';

const LENGTHS = ['to nip off', 'crown along the surface', 'tang', 'straight across'];

const COLUMNS: readonly CsvColumn[] = [
  { head: 'order' },
  { head: 'fret' },
  ...LENGTHS.map((head) => ({ head: `${head} (mm)`, decimals: 2 })),
  ...LENGTHS.map((head) => ({ head: `${head} (in)`, decimals: 3 })),
  { head: 'stick no.' },
];

/**
 * The pieces of fret wire as a table to print labels from, in the order in which frets go in. Lengths in millimetres (2 decimals)
 * and inches (3 decimals); the stick column is empty where wire is bought by length.
 */
export function writeFretWireCsv(wire: WirePlan): string {
  return writeTable(
    COLUMNS,
    wire.pieces.map((piece, i) => rowOf(piece, i, wire)),
  );
}

function rowOf(piece: WirePiece, i: number, { sticks }: WirePlan): CsvCell[] {
  const lengths = [piece.cut, piece.crown, piece.tang, piece.straight];
  const stick = sticks?.sticks.findIndex((s) => s.pieces.some((p) => p.slot === piece.slot)) ?? -1;
  return [i + 1, piece.label, ...lengths, ...lengths.map(inchesFromMm), stick < 0 ? null : stick + 1];
}
