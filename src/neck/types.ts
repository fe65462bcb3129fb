/**
 * Setting the neck: its angle, what to take off the heel, and what becomes of the board over the body.
 *
 * In: an Instrument with a neck joint, its Layout, and what was measured on the bench. Out: numbers. Millimetres, radians.
 * Frame: the rim's plane at the joint is the reference; distances run from the joint toward the bridge; up is out of the face.
 */

/** What a straightedge on the levelled frets says before anything is taken off. */
export interface Measured {
  /** Above the bare top at the saddle line. */
  readonly straightedge: number;
  /** How far the neck's centreline passes the middle of the bridge there: treble side positive, bass side negative. */
  readonly aim: number;
}

/** The four corners of the heel's face, each with what is taken off it. */
export interface HeelRemoval {
  readonly topBass: number;
  readonly topTreble: number;
  readonly capBass: number;
  readonly capTreble: number;
}

export interface HeelWork {
  readonly measured: Measured;
  /** How much higher the straightedge must come to lie; negative: lower. */
  readonly raise: number;
  /** How far the aim must move, toward the bass side; negative: toward the treble side. */
  readonly aim: number;
  readonly removal: HeelRemoval;
  /** Where most comes off: the cap's side tips the head back, the top's side forward. */
  readonly side: 'cap' | 'top' | 'neither';
  readonly cheek: 'bass' | 'treble' | 'neither';
  /** Of a wedge as deep as the heel that does the pitch alone. */
  readonly wedge: { readonly angle: number; readonly thick: number };
  /** The nut moves toward the bridge by this once the neck seats again. */
  readonly nutMoves: number;
  /** The head end of the centreline swings toward the treble side by this at the nut. */
  readonly nutSwings: number;
  /** Angle as it stands now. */
  readonly angleNow: number;
  /** Action at the action's fret, higher than wanted by this if the saddle were made for the plan. */
  readonly actionOff: number;
  /** Saddle above the bridge's face for the wanted action if nothing is taken off: least and most under any string. */
  readonly saddleIfLeft: readonly [number, number];
}

/** One place on the board over the body. */
export interface ExtensionPlace {
  readonly what: string;
  /** From the joint. */
  readonly along: number;
  /** Between the board's underside and the top: a wedge's thickness; negative: how much must be flattened. */
  readonly gap: number;
  /** How much lower than the straight run the frets are to be there. */
  readonly fallAway: number;
}

export interface NeckSet {
  readonly instrument: string;
  readonly units: 'mm' | 'in';
  /** By its name. */
  readonly jointFret: string;
  /** Joint to saddle line along the middle. */
  readonly length: number;
  /** Fret tops above the rim's plane at the joint. */
  readonly fretsAboveRim: number;
  readonly bridgeHeight: number;
  /** Of the top at the saddle line over the joint. */
  readonly domeRise: number;
  readonly clearance: { readonly unstrung: number; readonly drop: number };
  readonly angle: number;
  /** Straightedge above the bare top at the saddle line that means the same. */
  readonly straightedge: number;
  /** Saddle above the bridge's face, least and most under any string. */
  readonly saddle: readonly [number, number];
  /** What a tenth of a degree does. */
  readonly tenth: { readonly straightedge: number; readonly action: number; readonly actionFret: string };
  readonly extension: readonly ExtensionPlace[];
  readonly heel: { readonly depth: number; readonly widthAtTop: number; readonly widthAtCap: number };
  readonly work: HeelWork | null;
}
