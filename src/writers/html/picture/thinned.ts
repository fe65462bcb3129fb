/** Half the width of the strip that a straight stretch's places lie in, pixels: less than can be seen. */
const NEAR = 0.04;

type Place = readonly [x: number, y: number];

export interface Trace {
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  /** A piece of path data that goes from the last place to another. */
  add(data: string, x: number, y: number): void;
  close(): void;
  data(): string;
  /** Whether the box around its places comes within `margin` of a sheet of this size. */
  isOn(width: number, height: number, margin: number): boolean;
}

/**
 * Path data of moves and lines, with the places left out that lie on the straight stretch between their neighbours: a
 * program of a million moves is then no longer than what can be seen of it.
 */
export function traceThinned(): Trace {
  const pieces: string[] = [];
  /** Last place written, the direction of the stretch that begins there, and how far along it the last place lies. */
  let from: Place = [0, 0];
  let along: Place | null = null;
  let held: Place | null = null;
  let reach = 0;
  const box = {
    left: Number.POSITIVE_INFINITY,
    top: Number.POSITIVE_INFINITY,
    right: Number.NEGATIVE_INFINITY,
    bottom: Number.NEGATIVE_INFINITY,
  };

  function note(x: number, y: number): void {
    box.left = Math.min(box.left, x);
    box.top = Math.min(box.top, y);
    box.right = Math.max(box.right, x);
    box.bottom = Math.max(box.bottom, y);
  }
  function flush(): void {
    if (held !== null) write('L', held);
    held = null;
    along = null;
  }
  function write(letter: string, place: Place): void {
    pieces.push(`${letter}${short(place[0])} ${short(place[1])}`);
    from = place;
  }
  /** Whether a place carries the stretch straight on. */
  function continues([x, y]: Place): boolean {
    if (along === null) return true; // Nothing but places as good as the first so far.
    const [dx, dy] = [x - from[0], y - from[1]];
    const far = dx * along[0] + dy * along[1];
    return far >= reach && Math.abs(dx * along[1] - dy * along[0]) <= NEAR;
  }
  function hold(place: Place): void {
    held = place;
    const length = Math.hypot(place[0] - from[0], place[1] - from[1]);
    if (along === null && length > NEAR)
      along = [(place[0] - from[0]) / length, (place[1] - from[1]) / length];
    reach = along === null ? 0 : length;
  }

  return {
    moveTo(x, y) {
      note(x, y);
      flush();
      write('M', [x, y]);
    },
    lineTo(x, y) {
      note(x, y);
      if (!continues([x, y])) flush();
      hold([x, y]);
    },
    add(data, x, y) {
      note(x, y);
      flush();
      pieces.push(data);
      from = [x, y];
    },
    close() {
      flush();
      pieces.push('Z');
    },
    data() {
      flush();
      return pieces.join('');
    },
    isOn: (width, height, margin) =>
      box.right > -margin && box.left < width + margin && box.bottom > -margin && box.top < height + margin,
  };
}

/** Hundredths of a pixel, never `-0`. */
export function short(value: number): string {
  if (!(Math.abs(value) < 1e9)) throw new Error(`coordinate ${value} in a picture`);
  return String(Math.round(value * 100) / 100 || 0);
}
