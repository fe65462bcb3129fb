/**
 * Chip loads to start from, mm per tooth.
 *
 * Source of the figures for 1/8 and 1/4 in: the start chart that one maker of carbide cutters publishes openly, in
 * thousandths of an inch; its low end is taken. Everything below 1/8 in, tropical hardwood and card is our own assumption.
 */
import type { MaterialClass } from '../profile/types.ts';
import { mmFromInches } from '../units/convert.ts';

export interface ChipLoad {
  /** mm per tooth. */
  readonly chipLoad: number;
  /** Where the figure comes from, as a phrase for a job sheet. */
  readonly source: string;
}

interface Row {
  /** mm per tooth for cutters of 1/8 in and 1/4 in. */
  readonly eighth: number;
  readonly quarter: number;
  /** What makes the figure our own and not the chart's; empty when it is the chart's. */
  readonly assumed: string;
}

const EIGHTH = mmFromInches(1 / 8);
const QUARTER = mmFromInches(1 / 4);
/** No chart was found for thinner cutters. */
const THIN = 2;
/** At and below this diameter the chip load is half of what goes with the diameter: such cutters break first. */
const VERY_THIN = 1;
const VERY_THIN_SHARE = 0.5;
/** No chart was found for tropical hardwood; this share of hardwood's chip load is assumed. */
const TROPICAL_SHARE = 0.7;

const fromChart = (eighth: number, quarter: number, assumed = ''): Row => ({
  eighth: mmFromInches(eighth),
  quarter: mmFromInches(quarter),
  assumed,
});

const HARDWOOD = fromChart(0.002, 0.005);
const PLYWOOD = fromChart(0.003, 0.006);

const ROWS: Readonly<Record<MaterialClass, Row>> = {
  mdf: fromChart(0.004, 0.012),
  hardwood: HARDWOOD,
  softwood: fromChart(0.003, 0.006),
  plywood: PLYWOOD,
  acrylic: fromChart(0.002, 0.005, 'acrylic taken as the chart’s hard plastic'),
  'tropical hardwood': {
    eighth: HARDWOOD.eighth * TROPICAL_SHARE,
    quarter: HARDWOOD.quarter * TROPICAL_SHARE,
    assumed: `no chart for tropical hardwood: ${TROPICAL_SHARE} of hardwood assumed`,
  },
  card: { ...PLYWOOD, assumed: 'no chart for card: plywood assumed' },
};

/**
 * The chip load to start from, mm per tooth, for a cutter's diameter in mm: the chart's low end, straight between 1/8 and
 * 1/4 in and held above; below 1/8 in it goes with the diameter, and from 2 mm down to 1 mm falls to half of that.
 * @example chipLoadFor('hardwood', 3.175).chipLoad // 0.0508
 */
export function chipLoadFor(materialClass: MaterialClass, diameter: number): ChipLoad {
  if (!(diameter > 0 && Number.isFinite(diameter))) throw new Error(`cutter of diameter ${diameter}`);
  const row = ROWS[materialClass];
  return { chipLoad: chipLoadOf(row, diameter), source: sourceOf(row, diameter) };
}

/**
 * By how much the feed may rise when less than half of the cutter's diameter is engaged, so that the thickest chip keeps
 * its thickness: 1 / (2 sqrt(x - x^2)), x = width of cut over diameter; 1 from a half on (chip thinning by the circle's geometry).
 * @example thinningFactor(0.1) // 1.6667
 */
export function thinningFactor(engagementShare: number): number {
  if (!(engagementShare > 0 && engagementShare <= 1)) throw new Error(`engagement of ${engagementShare}`);
  if (engagementShare >= 0.5) return 1;
  return 1 / (2 * Math.sqrt(engagementShare - engagementShare ** 2));
}

function chipLoadOf(row: Row, diameter: number): number {
  if (diameter >= QUARTER) return row.quarter;
  if (diameter >= EIGHTH) {
    return row.eighth + ((row.quarter - row.eighth) * (diameter - EIGHTH)) / (QUARTER - EIGHTH);
  }
  const perMm = row.eighth / EIGHTH;
  if (diameter >= THIN) return perMm * diameter;
  const veryThin = perMm * VERY_THIN * VERY_THIN_SHARE;
  if (diameter <= VERY_THIN) return (veryThin * diameter) / VERY_THIN;
  return veryThin + ((perMm * THIN - veryThin) * (diameter - VERY_THIN)) / (THIN - VERY_THIN);
}

function sourceOf(row: Row, diameter: number): string {
  const chart = 'low end of a carbide cutter maker’s open start chart for 1/8 and 1/4 in';
  const size =
    diameter < THIN
      ? 'no chart below 2 mm: a small share of the diameter assumed'
      : diameter < EIGHTH
        ? 'below 1/8 in scaled with the diameter, assumed'
        : diameter > QUARTER
          ? 'held at its 1/4 in figure'
          : '';
  return [chart, row.assumed, size].filter((words) => words !== '').join('; ');
}
