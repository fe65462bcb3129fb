import { describe, expect, it } from 'vitest';
import { runOver } from '../../src/timing/trapezoid.ts';
import { secondsOf, timeOf } from './time-support.ts';

// Feed 1200 mm/min = 20 mm/s, 200 mm/s^2: 0.1 s and 1 mm to get up to speed. Kinematics of constant acceleration.
const F = 'F1200';

describe('one line', () => {
  it('long enough to reach its feed takes L/v + v/a', () => {
    expect(secondsOf(`G1 X100 ${F}`)).toBeCloseTo(100 / 20 + 20 / 200, 9);
  });

  it('too short to reach it takes 2 sqrt(L/a)', () => {
    expect(secondsOf(`G1 X0.5 ${F}`)).toBeCloseTo(2 * Math.sqrt(0.5 / 200), 9);
  });

  it('at the length where both meet takes 2 v/a', () => {
    expect(secondsOf(`G1 X2 ${F}`)).toBeCloseTo((2 * 20) / 200, 9);
  });

  it('straight up is held by the upright acceleration', () => {
    expect(secondsOf(`G1 Z100 ${F}`)).toBeCloseTo(100 / 20 + 20 / 100, 9);
  });

  it('on a slope is held by whichever acceleration is reached first', () => {
    // 3-4-5 in x and z: along the line 200/0.6 = 333 sideways, 100/0.8 = 125 upright.
    expect(secondsOf(`G1 X30 Z40 ${F}`)).toBeCloseTo(50 / 20 + 20 / 125, 9);
  });

  it('is never run faster than the machine, whatever is written', () => {
    // 0.8 of 10 mm/s upright: 12.5 mm/s along a 3-4-5 slope.
    const slow = { maxFeed: { xy: 3000, z: 600 } };
    expect(secondsOf(`G1 X30 Z40 ${F}`, slow)).toBeCloseTo(50 / 12.5 + 12.5 / 125, 9);
    expect(timeOf(`G1 X30 Z40 ${F}`, slow).atFeed).toBe(0);
  });
});

describe('two lines', () => {
  /** A line of 50 mm entered or left at `corner` mm/s and at rest at its other end. */
  const half = (corner: number): number =>
    20 / 200 + (20 - corner) / 200 + (50 - 400 / 400 - (400 - corner ** 2) / 400) / 20;

  it('at a right angle go round at 5/sqrt 2 mm/s, where the velocity changes by 5', () => {
    expect(secondsOf(`G1 X50 ${F}\nY50`)).toBeCloseTo(2 * half(5 / Math.SQRT2), 9);
  });

  it('at 60 degrees of turning go round at 5 mm/s: the change is as large as the speed', () => {
    const [x, y] = [50 + 50 * Math.cos(Math.PI / 3), 50 * Math.sin(Math.PI / 3)];
    expect(secondsOf(`G1 X50 ${F}\nX${x.toFixed(9)} Y${y.toFixed(9)}`)).toBeCloseTo(2 * half(5), 6);
  });

  it('back the same way stop between', () => {
    expect(secondsOf(`G1 X50 ${F}\nX0`)).toBeCloseTo(2 * half(0), 9);
  });

  it('on one straight line are one line', () => {
    expect(secondsOf(`G1 X50 ${F}\nX100`)).toBeCloseTo(100 / 20 + 20 / 200, 9);
  });

  it('on one straight line with another feed change speed without a stop, the slower one all along its length', () => {
    // 20 mm/s until 10 mm/s is reached at x 50: 0.1 s + 0.05 s on ramps of 1 and 0.75 mm.
    const first = 0.1 + 0.05 + (50 - 1 - 0.75) / 20;
    const second = (50 - 0.25) / 10 + 0.05;
    expect(secondsOf(`G1 X50 ${F}\nX100 F600`)).toBeCloseTo(first + second, 9);
  });

  it('meet no faster than the first can speed up to', () => {
    // 0.01 mm from rest: sqrt(2 x 200 x 0.01) = 2 mm/s, below the 5/sqrt 2 of the corner; but so short a line stands for a
    // curve of radius 0.005, sqrt(200 x 0.005) = 1 mm/s.
    const first = runOver(0.01, 20, 200, 0, 1).seconds;
    const second = runOver(50, 20, 200, 1, 0).seconds;
    expect(secondsOf(`G1 X0.01 ${F}\nY50`)).toBeCloseTo(first + second, 9);
  });
});

describe('an arc', () => {
  it('of a large radius is run at its feed', () => {
    // Half a circle of radius 50: sqrt(200 x 50) = 100 mm/s is far above 20.
    expect(secondsOf(`G2 X100 I50 ${F}`)).toBeCloseTo((Math.PI * 50) / 20 + 20 / 200, 9);
    expect(timeOf(`G2 X100 I50 ${F}`).atFeed).toBeCloseTo(1 - 2 / (Math.PI * 50), 9);
  });

  it('of a small radius is held to sqrt(a r)', () => {
    // Radius 0.5: sqrt(200 x 0.5) = 10 mm/s, reached over 0.25 mm.
    const time = timeOf(`G3 X0 I0.5 ${F}`);
    expect(time.minutes * 60).toBeCloseTo(Math.PI / 10 + 10 / 200, 9);
    expect(time.atFeed).toBe(0);
  });

  it('of a helix is held by its turning only', () => {
    // Circle of radius 0.5 and 1 mm of fall: the way is hypot(pi, 1), its turning share pi over that.
    const length = Math.hypot(Math.PI, 1);
    const speed = (10 * length) / Math.PI;
    const acceleration = Math.min((200 * length) / Math.PI, 100 * length);
    expect(secondsOf(`G3 X0 Z-1 I0.5 ${F}`)).toBeCloseTo(length / speed + speed / acceleration, 9);
  });

  it('over a hill is held by the upright acceleration only as far as it climbs', () => {
    // 60 degrees of radius 100 about the top, in the YZ plane: it climbs at most sin 30 = 0.5 of its way, so 100/0.5 = 200.
    const y = (100 * Math.sin(Math.PI / 6)).toFixed(9);
    const z = (-100 * Math.cos(Math.PI / 6)).toFixed(9);
    const start = `G1 Y-${y} F60000\n`;
    const arc = `G19 G2 Y${y} J${y} K${z} ${F}\nG17`;
    const alone = secondsOf(`${start}G4 P1\n${arc}`) - secondsOf(`${start}G4 P1`);
    expect(alone).toBeCloseTo((100 * Math.PI) / 3 / 20 + 20 / 200, 6);
  });

  it.each(['G17 G3 X0 I0.5', 'G18 G3 X0 K0.5', 'G19 G3 Y0 J0.5'])(
    '%s is a whole circle held by its plane',
    (words) => {
      const inward = words.startsWith('G17') ? 200 : 100;
      const speed = Math.sqrt(inward * 0.5);
      expect(secondsOf(`${words} ${F}\nG17`)).toBeCloseTo(Math.PI / speed + speed / inward, 9);
    },
  );

  it('joins lines that touch it without a stop', () => {
    const length = 100 + (Math.PI / 2) * 50 + 100;
    expect(secondsOf(`G1 X100 ${F}\nG3 X150 Y50 J50\nG1 Y150`)).toBeCloseTo(length / 20 + 20 / 200, 9);
  });

  it('takes as long in fine chords', () => {
    const chords = Array.from({ length: 400 }, (_, i) => {
      const angle = (2 * Math.PI * (i + 1)) / 400;
      return `X${(0.5 - 0.5 * Math.cos(angle)).toFixed(9)} Y${(-0.5 * Math.sin(angle)).toFixed(9)}`;
    });
    const arc = secondsOf(`G3 X0 I0.5 ${F}`);
    expect(secondsOf(`G1 ${F} ${chords.join('\n')}`) / arc).toBeCloseTo(1, 2);
  });
});

describe('rapids, dwells and spindle', () => {
  it('on a straight line the slower axis sets the speed', () => {
    // 100 mm/s sideways and 50 upright: 3-4-5 in x and z gives 62.5 mm/s, 125 mm/s^2.
    expect(secondsOf('G0 X30 Z40')).toBeCloseTo(50 / 62.5 + 62.5 / 125, 9);
    expect(timeOf('G0 X30 Z40').cutting).toBe(0);
  });

  it('with axes on their own, the slower axis alone counts, from rest to rest', () => {
    const loose = { straightRapids: false };
    const upright = 40 / 50 + 50 / 100;
    expect(secondsOf('G0 X30 Z40', loose)).toBeCloseTo(upright, 9);
    expect(secondsOf('G0 X30 Z40\nX60 Z80', loose)).toBeCloseTo(2 * upright, 9);
    expect(secondsOf('G0 Z40', loose)).toBeCloseTo(upright, 9);
  });

  it('a dwell is waited for at rest', () => {
    const time = timeOf(`G1 X50 ${F}\nG4 P2.5\nX100`);
    expect(time.waiting * 60).toBeCloseTo(2.5, 12);
    expect(time.minutes * 60).toBeCloseTo(2.5 + 100 / 20 + 2 * (20 / 200), 9);
  });

  it('spindle or beam change at rest', () => {
    expect(secondsOf(`M3 S100\nG1 X50 ${F}\nM5\nX100`)).toBeCloseTo(100 / 20 + 2 * (20 / 200), 9);
    expect(secondsOf(`M3 S100\nG1 X50 ${F}\nS200\nX100`)).toBeCloseTo(100 / 20 + 2 * (20 / 200), 9);
  });

  it('a drilling cycle takes what its strokes take', () => {
    // R 1, bottom -4, pecks of 5: one stroke down at 2 mm/s and one rapid up; 1 mm down to R first from z 2.
    const cycle = secondsOf('G0 Z2\nG99 G81 X0 Y0 Z-4 R1 F120\nG80');
    expect(cycle).toBeCloseTo(secondsOf('G0 Z2\nG0 Z1\nG1 Z-4 F120\nG0 Z1'), 9);
  });

  it('parts of the time add up', () => {
    const time = timeOf(`G0 X30\nM3 S100\nG4 P1\nG1 X50 ${F}\nG0 Z5`);
    expect(time.cutting + time.travel + time.waiting).toBeCloseTo(time.minutes, 12);
    expect(Math.min(time.cutting, time.travel, time.waiting)).toBeGreaterThan(0);
  });
});
