/** The bridge's numbers as a page of text: where it goes, the nut, the saddle, the pins. */
import type { BridgeWork } from '../bridge/types.ts';
import { degreesFromRadians } from '../units/convert.ts';
import { formatInches, formatMm, formatNumber, formatShort } from '../units/format.ts';
import { anchorLines } from './anchorLines.ts';
import { anchorWords } from './anchorWords.ts';
import { type Column, textTable } from './textTable.ts';
import { wrapText } from './wrapText.ts';

const WIDTH = 100;

/** The whole page. */
export function renderBridgeText(work: BridgeWork): string {
  const parts = [
    headOf(work),
    placeLines(work),
    saddleLines(work),
    nutLines(work),
    holdLines(work),
    cautions(work.anchor),
  ];
  return `${parts.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

const left = (...head: string[]): Column => ({ head, align: 'left' });
const right = (...head: string[]): Column => ({ head, align: 'right' });
const both = (mm: number, decimals = 2): string =>
  `${formatMm(mm, decimals)} mm (${formatInches(mm, decimals + 1)} in)`;
const short = (mm: number): string => `${formatShort(mm, 3)} mm`;
const degrees = (radians: number): string => formatShort(degreesFromRadians(radians), 2);
const nameOf = (item: { readonly position: number; readonly pitch: string }): string =>
  `${item.position} ${item.pitch.replace(/\s+/g, ' ')}`;
const sentences = (...texts: string[]): string[] => texts.flatMap((text) => wrapText(text, WIDTH));

function headOf({ instrument, anchor }: BridgeWork): string[] {
  return sentences(
    `Bridge, saddle, nut and ${anchor.kind === 'pins' ? 'pins' : anchorWords(anchor.kind).many} of ${instrument.replace(/\s+/g, ' ')}. String 1 is the bass-most.`,
    'Level the frets and set the neck first; then measure the bridge’s place from the nut face, with one rule laid once. Set-backs are those of the profile: nutline strings shows what the model would like.',
  );
}

function placeLines({ place, anchor }: BridgeWork): string[] {
  const { slot, skew, centring } = place;
  const { checkedAt: one, column } = anchorWords(anchor.kind);
  const heads = [
    left('string'),
    right('saddle from', 'nut face mm'),
    right('', 'in'),
    right('off the', 'centreline mm'),
    right(`${column} from`, 'nut face mm'),
    right('', 'in'),
    right('off the', 'centreline mm'),
    left('side'),
  ];
  const rows = place.strings.map((s) => [
    nameOf(s),
    formatMm(s.saddle, 2),
    formatInches(s.saddle, 3),
    formatMm(Math.abs(s.saddleAcross), 2),
    formatMm(s.pin, 2),
    formatInches(s.pin, 3),
    formatMm(Math.abs(s.pinAcross), 2),
    sideOf(s.pinAcross),
  ]);
  return [
    'Where the strings end, along and square to the centreline:',
    ...textTable(heads, rows),
    ...sentences(
      `A straight saddle slot’s middle lies ${both(slot.atCentre)} from the nut face on the centreline, ${both(slot.bass)} under the bass string and ${both(slot.treble)} under the treble one: ${degrees(Math.abs(slot.angle))} deg off square, the ${slot.angle >= 0 ? 'bass' : 'treble'} end toward the tail.`,
      `Skew: from the board’s bass corner at the nut to the bass-most ${one} ${both(skew.bass, 1)}, treble corner to treble-most ${one} ${both(skew.treble, 1)}; crosswise bass to treble ${both(skew.bassToTreble, 1)}, treble to bass ${both(skew.trebleToBass, 1)}. These test the bridge’s skew, not the neck’s aim.`,
      `Centring: sideways from a straightedge laid along the board’s bass edge to the middle of the bass-most ${one} ${both(centring.bass, 1)}, from the treble edge to the treble-most ${one} ${both(centring.treble, 1)}; past the edge counts as minus.`,
      `Work to: lengthwise +/- 0.3 mm, skew 0.3 mm over the outer ${anchor.kind === 'pins' ? 'pins' : 'strings'}, centring +/- 0.4 mm (common practice).`,
    ),
  ];
}

const sideOf = (across: number): string => {
  if (Math.abs(across) < 0.005) return 'middle';
  return across < 0 ? 'bass' : 'treble';
};

function saddleLines({ saddle, straightedge }: BridgeWork): string[] {
  const heads = [
    left('string'),
    right('from the', 'bass end mm'),
    right('above the', 'fret tops mm'),
    right('board’s', 'fall mm'),
    right('above the', 'bridge mm'),
    right('', 'in'),
    right('crown off the', 'middle mm'),
  ];
  const rows = saddle.points.map((p) => [
    nameOf(p),
    formatMm(p.along, 2),
    formatMm(p.aboveFrets, 2),
    formatMm(p.fall, 2),
    formatMm(p.aboveBridge, 2),
    formatInches(p.aboveBridge, 3),
    leanOf(p.lean),
  ]);
  return [
    'The saddle, for the action wanted:',
    ...textTable(heads, rows),
    ...sentences(
      `Blank: ${both(saddle.length, 1)} long, ${short(saddle.width)} thick, at least ${both(saddle.tallest, 1)} high, of which ${short(saddle.slotDepth)} in the slot.${topWords(saddle)}`,
      `Straightedge on the fret tops over the bridge’s face at the saddle: ${short(straightedge.unstrung)} unstrung, ${short(straightedge.strung)} strung. Every millimetre it differs is a millimetre of saddle. Work to +/- 0.1 mm; or rout the slot in place after trial stringing, where that is your way of working.`,
    ),
  ];
}

function topWords({ top }: BridgeWork['saddle']): string {
  if (top === null) return '';
  const curve = top.radius === null ? 'straight' : `a curve of ${formatNumber(top.radius, 0)} mm radius`;
  return ` Its top is ${curve}, within ${short(Math.max(top.miss, 0.001))} of every string’s height.`;
}

function leanOf(lean: number): string {
  const digits = formatMm(Math.abs(lean), 2);
  if (digits === '0.00') return digits;
  return `${digits} ${lean > 0 ? 'back' : 'forward'}`;
}

function nutLines({ nut }: BridgeWork): string[] {
  const heads = [
    left('string'),
    right('middle from', 'bass edge mm'),
    right('', 'in'),
    right('to the next', 'mm'),
    right('slot', 'mm'),
    right('wide', 'in'),
    right('floor above', 'board mm'),
    right('floor above', 'neck mm'),
    right('slot', 'depth mm'),
  ];
  const rows = nut.slots.map((s) => [
    nameOf(s),
    formatMm(s.fromBassEdge, 2),
    formatInches(s.fromBassEdge, 3),
    s.gapToNext === null ? '' : formatMm(s.gapToNext, 2),
    formatMm(s.width, 2),
    formatInches(s.width, 3),
    formatMm(s.aboveBoard, 2),
    formatMm(s.aboveNeck, 2),
    formatMm(s.depth, 2),
  ]);
  return [
    'The nut, for the height wanted over the first fret:',
    ...textTable(heads, rows),
    ...sentences(
      `Blank: ${both(nut.length, 1)} long, ${short(nut.thickness)} thick, at least ${both(nut.tallest, 1)} high from the neck’s face. Outside the outer strings ${short(nut.marginBass)} on the bass side and ${short(nut.marginTreble)} on the treble side.`,
      'Slots are filed last of all, with the strings on, to the height over the first fret; work to +/- 0.05 mm. Each falls back toward the tuners and carries the string at the nut’s face.',
    ),
  ];
}

/** How the strings are held behind the saddle. */
function holdLines({ pins, taper, anchor }: BridgeWork): string[] {
  return taper === null ? sentences(...anchorLines(anchor, short)) : pinLines(pins, taper);
}

function pinLines(pins: BridgeWork['pins'], taper: NonNullable<BridgeWork['taper']>): string[] {
  const heads = [
    left('string'),
    right('pin at the', 'face mm'),
    right('drill', 'mm'),
    right('ream after', 'contact mm'),
    right('', 'in'),
    right('pin proud', 'at mm'),
    right('tip below', 'face mm'),
    right('string', 'slot mm'),
    left('cone'),
  ];
  const rows = pins.map((p) => [
    nameOf(p),
    formatMm(p.seat, 2),
    formatShort(p.drill, 3),
    formatMm(p.advance, 1),
    formatInches(p.advance, 2),
    formatMm(p.proudAt, 1),
    p.tipBelow === null ? '' : formatMm(p.tipBelow, 1),
    formatMm(p.stringSlot, 2),
    p.coneAllThrough ? 'all through' : `needs a drill of ${formatMm(p.largestDrill, 2)} or less`,
  ]);
  const alike = Math.abs(degreesFromRadians(taper.reamer - taper.pin)) <= 0.1;
  const last = pins.map((p) => p.tryFrom).reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  return [
    `Pin holes, drilled and reamed through ${short(taper.through)} of bridge, top and plate; reamer ${degrees(taper.reamer)} deg included, pins ${degrees(taper.pin)} deg:`,
    ...textTable(heads, rows),
    ...sentences(
      `Measure each pin. "Ream after contact" counts from where the reamer first touches the hole all round. From ${formatMm(last, 1)} mm on, ream by trying the pin in its own hole: it stands proud at the advance named and goes home with a push, never with a hammer.`,
      alike
        ? 'Pin and reamer have the same taper: a pin goes down by as much as the reamer does, and 0.05 mm of diameter is 0.95 mm of height at 3 deg.'
        : 'Pin and reamer differ in taper: the pin bears at one end only. Use the reamer made for these pins.',
    ),
  ];
}

function cautions({ kind }: BridgeWork['anchor']): string[] {
  const glue =
    kind === 'tailpiece'
      ? ''
      : ` Glue a bridge for 24 to 48 hours before ${kind === 'tied' ? '' : 'string holes are drilled or '}strings put on (common practice; the glue’s own sheet decides).`;
  return sentences(
    `Strings under tension store energy: wear eye protection, tune up in steps.${glue} Dust of bone, shell and tropical wood harms the lungs: extraction and a mask.`,
  );
}
