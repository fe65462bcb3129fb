import { initWasm, Resvg } from '@resvg/resvg-wasm';

/** What turns drawings into pixels, as bytes. */
export interface Painter {
  /** The renderer's compiled module. */
  readonly engine: Uint8Array;
  /** The faces that text is set in; the first one serves where a drawing names none. */
  readonly faces: readonly Uint8Array[];
  /** Name of that first face. */
  readonly face: string;
}

/** The renderer sets itself up once in a process and refuses a second time, so that is kept here. */
let ready: Promise<void> | null = null;

/** An SVG picture as PNG, `scale` pixels for each of its own. */
export async function writePng(
  svg: string,
  { engine, faces, face }: Painter,
  scale: number,
): Promise<Uint8Array> {
  ready ??= initWasm(new Uint8Array(engine));
  await ready;
  const picture = new Resvg(svg, {
    fitTo: { mode: 'zoom', value: scale },
    font: {
      fontBuffers: faces.map((bytes) => new Uint8Array(bytes)),
      defaultFontFamily: face,
      sansSerifFamily: face,
    },
  });
  const image = picture.render();
  const png = image.asPng();
  image.free();
  picture.free();
  return png;
}
