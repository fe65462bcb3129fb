import type { Vec } from '../geometry/types.ts';

/** Equal plates side by side on a panel, about as high as it is wide. */
export interface PanelGrid {
  /** Lower left corner of each plate. */
  readonly corners: readonly Vec[];
  /** Of the whole panel, its waste between and around included. */
  readonly width: number;
  readonly height: number;
}

/** Where `count` plates of a size lie on a panel with `between` mm of waste about each. */
export function panelGrid(count: number, [width, height]: Vec, between: number): PanelGrid {
  const columns = Math.ceil(Math.sqrt((count * height) / width)) || 1;
  const rows = Math.ceil(count / columns);
  const corners = Array.from(
    { length: count },
    (_, i): Vec => [
      between + (i % columns) * (width + between),
      between + Math.floor(i / columns) * (height + between),
    ],
  );
  return {
    corners,
    width: columns * (width + between) + between,
    height: rows * (height + between) + between,
  };
}
