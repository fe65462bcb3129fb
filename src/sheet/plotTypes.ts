/** A line chart without a format: what is drawn over what, in words and numbers. */
export interface Plot {
  /** File name without ending, as `cents-by-fret`. */
  readonly id: string;
  readonly title: string;
  /** Below the title: what the chart says and how far it can be trusted. */
  readonly note: string;
  readonly across: Axis;
  readonly up: Axis;
  readonly lines: readonly PlotLine[];
}

export interface Axis {
  readonly label: string;
  readonly from: number;
  readonly to: number;
  /** Between two numbered lines. */
  readonly step: number;
}

export interface PlotLine {
  /** Stands at the line's end. */
  readonly name: string;
  readonly points: readonly (readonly [across: number, up: number])[];
  /** Half the band about each point; empty for none. */
  readonly plusMinus: readonly number[];
  /** Points to be marked and not joined. */
  readonly marks: boolean;
}
