import { escapeXml } from '../../svg/xml.ts';
import { short, type Trace, traceThinned } from './thinned.ts';

/** What may be set on a canvas' drawing surface (HTML standard, 2D context) and is kept by `save`. */
interface Pens {
  strokeStyle: string;
  fillStyle: string;
  lineWidth: number;
  lineCap: 'butt' | 'round' | 'square';
  lineJoin: 'miter' | 'round' | 'bevel';
  globalAlpha: number;
  font: string;
  textAlign: 'left' | 'center' | 'right';
  textBaseline: string;
}

/** The calls of a canvas' 2D context that the page's drawings make. */
export interface Strokes extends Pens {
  setLineDash(dashes: readonly number[]): void;
  beginPath(): void;
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  arc(x: number, y: number, radius: number, from: number, to: number): void;
  closePath(): void;
  stroke(): void;
  fill(): void;
  clip(): void;
  strokeRect(x: number, y: number, width: number, height: number): void;
  fillText(text: string, x: number, y: number): void;
  strokeText(text: string, x: number, y: number): void;
  save(): void;
  restore(): void;
  translate(x: number, y: number): void;
  rotate(angle: number): void;
}

export interface Recorded {
  readonly strokes: Strokes;
  /** The elements of SVG that stand for all that was drawn. */
  readonly elements: () => string;
}

interface Kept {
  readonly pens: Pens;
  readonly dashes: readonly number[];
  readonly clip: string;
  readonly turned: string;
}

const PENS: Pens = {
  strokeStyle: '#000000',
  fillStyle: '#000000',
  lineWidth: 1,
  lineCap: 'butt',
  lineJoin: 'miter',
  globalAlpha: 1,
  font: '12px sans-serif',
  textAlign: 'left',
  textBaseline: 'alphabetic',
};
const ANCHORS = { left: 'start', center: 'middle', right: 'end' } as const;
/** Half the height of a capital, as a share of the font's size: text set about its middle is let down by it. */
const HALF_CAPITAL = 0.36;

/** Half the widest line with room to spare, pixels. */
const BESIDE = 20;

/**
 * A surface of a size in pixels that takes the strokes of a canvas and gives them as SVG. `prefix` keeps the names in it
 * apart from others'. What lies wholly beside the surface is left out, as a canvas would: some renderers stumble over it.
 */
export function recordStrokes(prefix: string, width: number, height: number): Recorded {
  const pieces: string[] = [];
  const stack: Kept[] = [];
  let dashes: readonly number[] = [];
  let clip = '';
  let turned = '';
  let clips = 0;
  let trace: Trace = traceThinned();

  const placed = (): string => `${turned === '' ? '' : ` transform="${turned}"`}${clip}`;
  const strokeLook = (): string => {
    const { strokeStyle, lineWidth, lineCap, lineJoin, globalAlpha } = strokes;
    return [
      ` fill="none" stroke="${strokeStyle}" stroke-width="${short(lineWidth)}"`,
      lineCap === 'butt' ? '' : ` stroke-linecap="${lineCap}"`,
      lineJoin === 'miter' ? '' : ` stroke-linejoin="${lineJoin}"`,
      dashes.length === 0 ? '' : ` stroke-dasharray="${dashes.map(short).join(' ')}"`,
      globalAlpha === 1 ? '' : ` opacity="${short(globalAlpha)}"`,
    ].join('');
  };
  const fillLook = (): string =>
    ` fill="${strokes.fillStyle}"${strokes.globalAlpha === 1 ? '' : ` opacity="${short(strokes.globalAlpha)}"`}`;
  const path = (look: string): void => {
    const data = trace.data();
    if (data !== '' && trace.isOn(width, height, BESIDE))
      pieces.push(`<path d="${data}"${look}${placed()}/>`);
  };
  const letters = (text: string, x: number, y: number, look: string): void => {
    const size = Number.parseFloat(/([\d.]+)px/.exec(strokes.font)?.[1] ?? '12');
    const down = strokes.textBaseline === 'middle' ? size * HALF_CAPITAL : 0;
    const anchor = strokes.textAlign === 'left' ? '' : ` text-anchor="${ANCHORS[strokes.textAlign]}"`;
    pieces.push(
      `<text x="${short(x)}" y="${short(y + down)}" font-size="${short(size)}"${anchor}${look}${placed()}>${escapeXml(text)}</text>`,
    );
  };

  const strokes: Strokes = {
    ...PENS,
    setLineDash(next) {
      dashes = [...next];
    },
    beginPath() {
      trace = traceThinned();
    },
    moveTo: (x, y) => trace.moveTo(x, y),
    lineTo: (x, y) => trace.lineTo(x, y),
    closePath: () => trace.close(),
    arc: (x, y, radius, from, to) => traceCircle(trace, x, y, radius, to - from),
    stroke: () => path(strokeLook()),
    fill: () => path(fillLook()),
    clip() {
      clips += 1;
      pieces.push(`<clipPath id="${prefix}${clips}"><path d="${trace.data()}"/></clipPath>`);
      clip = ` clip-path="url(#${prefix}${clips})"`;
    },
    strokeRect(x, y, width, height) {
      const box = `x="${short(x)}" y="${short(y)}" width="${short(width)}" height="${short(height)}"`;
      pieces.push(`<rect ${box}${strokeLook()}${placed()}/>`);
    },
    fillText: (text, x, y) => letters(text, x, y, fillLook()),
    strokeText: (text, x, y) => letters(text, x, y, strokeLook()),
    save() {
      stack.push({ pens: pensOf(strokes), dashes, clip, turned });
    },
    restore() {
      const kept = stack.pop();
      if (kept === undefined) throw new Error('restored more often than saved');
      Object.assign(strokes, kept.pens);
      ({ dashes, clip, turned } = kept);
    },
    translate(x, y) {
      turned += `translate(${short(x)} ${short(y)})`;
    },
    rotate(angle) {
      turned += `rotate(${short((angle * 180) / Math.PI)})`;
    },
  };
  return { strokes, elements: () => pieces.join('\n') };
}

function pensOf(from: Pens): Pens {
  const names = Object.keys(PENS) as (keyof Pens)[];
  return Object.fromEntries(names.map((name) => [name, from[name]])) as unknown as Pens;
}

/** The page draws whole circles only; each is two half turns, because one whole turn would be none. */
function traceCircle(trace: Trace, x: number, y: number, radius: number, sweep: number): void {
  if (Math.abs(sweep - 2 * Math.PI) > 1e-9) throw new Error(`an arc of ${sweep} is not a circle`);
  const r = short(radius);
  trace.moveTo(x + radius, y);
  trace.add(`A${r} ${r} 0 0 1 ${short(x - radius)} ${short(y)}`, x - radius, y);
  trace.add(`A${r} ${r} 0 0 1 ${short(x + radius)} ${short(y)}Z`, x + radius, y);
}
