/**
 * Chip loads to start from, mm per tooth.
 *
 * Source of the figures for 1/8 and 1/4 in: the start chart that one maker of carbide cutters publishes openly, in
 * thousandths of an inch; its low end is taken. Everything below 1/8 in, tropical hardwood and card is our own assumption:
 * a cutter of 1 mm or less takes 1 % of its diameter a tooth. Less is thinner than the rounding of a carbide edge (some
 * 0.005 mm), which then rubs and burns instead of cutting; more breaks it.
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
/** At and below this diameter the chip load is this share of it, whatever the material. */
const VERY_THIN = 1;
const VERY_THIN_SHARE = 0.01;
/** No chart was found for tropical hardwood; this share of hardwood's chip load is assumed. */
const TROPICAL_SHARE = 0.7;
/** Nor for shell, which is brittle and wears edges fast; this share of hardwood's is assumed. */
const SHELL_SHARE = 0.5;

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
  shell: {
    eighth: HARDWOOD.eighth * SHELL_SHARE,
    quarter: HARDWOOD.quarter * SHELL_SHARE,
    assumed: `no chart for shell: ${SHELL_SHARE} of hardwood assumed`,
  },
};

/**
 * The chip load to start from, mm per tooth, for a cutter's diameter in mm: the chart's low end, straight between 1/8 and
 * 1/4 in and held above; below 1/8 in it goes with the diameter, and from 2 mm down to 1 mm falls to 1 % of the diameter.
 * @example chipLoadFor('hardwood', 3.175).chipLoad // 0.0508
 */
export function chipLoadFor(materialClass: MaterialClass, diameter: number): ChipLoad {
  if (!(diameter > 0 && Number.isFinite(diameter))) throw new Error(`cutter of diameter ${diameter}`);
  const row = ROWS[materialClass];
  return { chipLoad: chipLoadOf(row, diameter), source: sourceOf(row, diameter) };
}

function chipLoadOf(row: Row, diameter: number): number {
  if (diameter >= QUARTER) return row.quarter;
  if (diameter >= EIGHTH) {
    return row.eighth + ((row.quarter - row.eighth) * (diameter - EIGHTH)) / (QUARTER - EIGHTH);
  }
  const perMm = row.eighth / EIGHTH;
  if (diameter >= THIN) return perMm * diameter;
  const veryThin = VERY_THIN * VERY_THIN_SHARE;
  if (diameter <= VERY_THIN) return (veryThin * diameter) / VERY_THIN;
  return veryThin + ((perMm * THIN - veryThin) * (diameter - VERY_THIN)) / (THIN - VERY_THIN);
}

function sourceOf(row: Row, diameter: number): string {
  const chart = 'low end of a carbide cutter maker’s open start chart for 1/8 and 1/4 in';
  const size =
    diameter < THIN
      ? `no chart below ${THIN} mm: from there down to ${VERY_THIN} mm falling to ${100 * VERY_THIN_SHARE} % of the diameter a tooth, and ${100 * VERY_THIN_SHARE} % below, assumed`
      : diameter < EIGHTH
        ? 'below 1/8 in scaled with the diameter, assumed'
        : diameter > QUARTER
          ? 'held at its 1/4 in figure'
          : '';
  return [chart, row.assumed, size].filter((words) => words !== '').join('; ');
}
