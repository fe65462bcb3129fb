import { describe, expect, it } from 'vitest';
import { design } from '../../src/app/design.ts';
import { readProject, textOf } from '../30-profile/bundled.ts';

const ROUND =
  '<svg xmlns="http://www.w3.org/2000/svg" width="8mm" height="8mm"><circle cx="4" cy="4" r="3"/></svg>';

/** The bundled dulcimer, 38 mm wide all along, with a round drawing on the middle line of one fret's space. */
function foundWith(fret: string, width: number): { code: string; text: string }[] {
  const artwork = `faceMarkers:\n  artwork:\n    - { file: round.svg, fret: ${fret}, width: ${width} }\n`;
  const outcome = design({
    profile: {
      path: 'd.yaml',
      text: textOf('profiles/heather-dulcimer.yaml').replace('faceMarkers:\n', artwork),
    },
    shop: { path: 'profiles/home-shop.yaml', text: textOf('profiles/home-shop.yaml') },
    readInclude: readProject,
    readBeside: (name) => (name === 'round.svg' ? ROUND : null),
  });
  return outcome.findings
    .filter(({ code }) => code.startsWith('artwork-') && code !== 'artwork-rounded')
    .map(({ code, text }) => ({ code, text }));
}

describe('artwork on the board', () => {
  it('that reaches over an edge is refused with the place where it does', () => {
    // Fret 1 is a whole tone up: its space is 660.4 (1 - 2^(-1/6)) = 72 mm long, so only the edges are in the way.
    const [found, ...more] = foundWith('1', 40);
    expect(more.map(({ code }) => code)).toEqual([]);
    expect(found?.code).toBe('artwork-off-board');
    const [, along, across] =
      /nearer than 0\.5 mm to it: at (\S+) mm from the nut face, (\S+) mm to the/.exec(found?.text ?? '') ??
      [];
    const middle = (660.4 * (1 - 2 ** (-1 / 6))) / 2;
    expect(Math.abs(Number(along) - middle)).toBeLessThan(1);
    expect(Number(across)).toBeCloseTo(20, 1);
    expect(foundWith('1', 35)).toEqual([]);
  });
});
