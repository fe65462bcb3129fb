import { describe, expect, it } from 'vitest';
import { pocketRows } from '../../src/writers/notes/pocketRows.ts';
import { routerJob } from '../support/job.ts';
import { firstJob, type PocketSetting, planPocketPart, SHAPES } from '../support/pocketShapes.ts';

const rowsOf = (name: keyof typeof SHAPES, setting: PocketSetting = {}) =>
  new Map(pocketRows(firstJob(planPocketPart([SHAPES[name]], setting))));

describe('the feed notes of a pocket', () => {
  it('say how laps run, what is left for the finishing pass and when it is run', () => {
    const rows = rowsOf('round', { cutters: [3.175] });
    expect(rows.get('Pockets')).toContain('climbing, 1.43 mm apart (45 % of the cutter at most)');
    expect(rows.get('Finishing pass')).toBe('the last 0.13 mm of the walls, once the floor is reached');
    const other = rowsOf('square', { cutters: [2], direction: 'conventional', allowance: 0.4 });
    expect(other.get('Pockets')).toContain('the conventional way');
    expect(other.get('Finishing pass')).toContain('the last 0.40 mm of the walls, at each level');
  });

  it('say how round the corners are left, and whether a smaller cutter goes on from there', () => {
    expect(rowsOf('round').get('Corners')).toBe('as drawn: none is sharper than the cutter');
    const left = rowsOf('square', { cutters: [3.175] }).get('Corners');
    expect(left).toContain('left with a radius of 1.59 mm, up to 0.67 mm from the drawn corner');
    expect(left).toContain('round the markers to match');
    expect(rowsOf('square').get('Corners')).toContain('the next program goes on from there');
  });

  it('say nothing of programs without such pockets', () => {
    expect(pocketRows(routerJob('fingerboard-markers.nc'))).toEqual([]);
  });
});
