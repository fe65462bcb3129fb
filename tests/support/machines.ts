import { jobsByProgram, makeProgram } from '../../src/app/programs.ts';
import type { ProvenProgram } from '../../src/app/types.ts';
import type { Controller, Shop } from '../../src/profile/types.ts';
import { parlour, router, workshop } from './instrument.ts';
import { planOf } from './job.ts';

/** Machines that cut alike and understand different things. */
export const MACHINES: Readonly<Record<string, Partial<Controller>>> = {
  'arcs in all planes': {},
  'no arcs': { arcPlanes: [] },
  'arcs in XY only': { arcPlanes: ['xy'] },
  'inches with five digits': { units: 'in', decimals: 5 },
  'inches with four digits': { units: 'in', decimals: 4 },
  'inches without arcs': { units: 'in', decimals: 5, arcPlanes: [] },
  'three digits': { decimals: 3 },
  'five digits': { decimals: 5 },
  'numbered lines': { lineNumbers: true, numbering: { start: 10, step: 10 } },
  'drill cycles': { drillCycles: true },
  'drill cycles in inches': { drillCycles: true, units: 'in', decimals: 5 },
  'no blanks, short lines, percent lines': { wordSpaces: false, lineLength: 80, percentLines: true },
  'milliseconds, second work offset, M30': {
    dwellUnit: 'milliseconds',
    workOffset: 'G55',
    programEnd: 'M30',
  },
  'no comments, no word of tool length': { comments: false, lengthOffset: 'none', exactPath: false },
  'tool change, touched off': { toolChange: 'M6' },
  'tool change with a table, in inches': {
    toolChange: 'M6',
    lengthOffset: 'G43',
    units: 'in',
    decimals: 5,
    drillCycles: true,
  },
};

/** The workshop with another control on its router, and on its laser what a laser has of it. */
export function shopWith(patch: Partial<Controller>): Shop {
  const withPatch = (machine: Shop['machines'][number]): Shop['machines'][number] => {
    if (machine.kind === 'router') return { ...router, controller: { ...router.controller, ...patch } };
    const { toolChange: _, lengthOffset, exactPath: __, ...rest } = patch;
    const arcPlanes = (patch.arcPlanes ?? ['xy']).filter((plane) => plane === 'xy');
    const length = lengthOffset === 'none' ? { lengthOffset } : {};
    return { ...machine, controller: { ...machine.controller, ...rest, ...length, arcPlanes } };
  };
  return { ...workshop, machines: workshop.machines.map(withPatch) };
}

/** Programs of the test parlour on such a machine, proven: all, or those that are named. */
export function programsOn(patch: Partial<Controller>, named: RegExp = /./): ProvenProgram[] {
  return jobsByProgram(planOf(parlour, shopWith(patch)).jobs)
    .filter(([job]) => named.test(job?.program ?? ''))
    .map((jobs) => makeProgram(jobs, 'Test'));
}
