/** The two pins that hold the board to the neck in the same place every time. Millimetres. */
export interface IndexPins {
  readonly diameter: number;
  /**
   * `auto`: where they lie farthest apart; `clear`: clear of slots, markers, rod and edges; `slot`: under a fret's crown; `marker`: under a marker; `none`: there are no
   * index pins, and the fields beside this one mean nothing.
   */
  readonly place: 'auto' | 'clear' | 'slot' | 'marker' | 'none';
  /** Of `auto`: what may hide the pins; `no`: they stand clear of everything. */
  readonly hide: 'any' | 'slot' | 'marker' | 'no';
  /** The two frets near which (clear), in whose slots, or under whose markers the pins go. */
  readonly frets: readonly [number, number];
  /** Wanted distance from the centreline, bass side first pin, treble side second. */
  readonly offset: number;
  /** Least wood between a pin hole and anything else, when clear. */
  readonly leastWall: number;
  /** Depth of the pins' holes in the neck. */
  readonly intoNeck: number;
}
