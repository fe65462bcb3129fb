import { describe, expect, it } from 'vitest';
import type { Instrument, Shop } from '../../src/profile/types.ts';
import { writeFeedNotes } from '../../src/writers/notes/feedNotes.ts';
import { writeStartHere } from '../../src/writers/notes/startHere.ts';
import type { ProgramFigures } from '../../src/writers/notes/types.ts';
import { workOrder } from '../../src/writers/notes/workOrder.ts';
import { parlour, workshop } from '../support/instrument.ts';
import { partsOf, planOf } from '../support/job.ts';

const plan = planOf();
const figures = plan.jobs.map(
  (job, i): ProgramFigures => ({
    program: job.program,
    minutes: i + 1,
    time: {
      model: 'trapezoidal motion with look-ahead',
      cutting: 0.7 * (i + 1),
      travel: 0.2 * (i + 1),
      waiting: 0.1 * (i + 1),
      atFeed: 0.934,
    },
    passed: true,
    limits: { over: 0.01, under: 0.02 },
    maxOvercut: 0.0012,
    maxUndercut: 0.0023,
  }),
);

const byHand: Shop = {
  ...workshop,
  machines: [],
  tools: [],
  work: {
    indexPins: 'hand',
    boardUnderside: 'hand',
    fretSlots: 'hand',
    nutSeat: 'hand',
    faceMarkers: 'hand',
    inlays: 'hand',
    boardSurface: 'hand',
    bindingChannel: 'hand',
    boardOutline: 'hand',
    radiusBlock: 'hand',
    pinTemplate: 'hand',
    slotTemplate: 'hand',
    sideMarkers: 'hand',
    sideMarkerTemplate: 'hand',
    neckBlank: 'hand',
    headstock: 'hand',
    headVeneer: 'hand',
    headTemplate: 'hand',
    neckGauges: 'hand',
    neckBack: 'hand',
    bridgeHoles: 'hand',
    saddleSlot: 'hand',
    bridgeOutline: 'hand',
    bridgePlate: 'hand',
    bridgeJigs: 'hand',
    jointTemplates: 'hand',
  },
};

/** The part of a page below a heading, up to the next one of its level or higher. */
function section(page: string, heading: string): string {
  const level = /^#+/.exec(heading)?.[0].length ?? 0;
  const lines = page.split('\n');
  const from = lines.findIndex((l) => l.startsWith(heading));
  expect(from, heading).toBeGreaterThanOrEqual(0);
  const rest = lines.slice(from + 1);
  const to = rest.findIndex((l) => /^#+ /.test(l) && (/^#+/.exec(l)?.[0].length ?? 9) <= level);
  return rest.slice(0, to < 0 ? rest.length : to).join('\n');
}

/** The part of the feed notes that speaks of a program, whatever its place in the order. */
function programSection(page: string, program: string): string {
  const heading = page.split('\n').find((l) => l.startsWith('### ') && l.includes(`\`${program}\``));
  expect(heading, program).toBeDefined();
  return section(page, heading ?? '');
}

describe('feed notes', () => {
  const page = writeFeedNotes(plan.jobs, plan.handSteps, parlour, workshop, figures);

  it('have a section for every program, in order, with machine, tool, zero, speeds and chip load', () => {
    expect(plan.jobs.length).toBeGreaterThan(4);
    for (const job of plan.jobs) {
      const text = section(page, `### ${job.order}. \`${job.program}\``);
      expect(text).toContain(job.machine.name);
      expect(text).toContain('Work zero');
      if (job.operations.length === 0) {
        expect(text).toContain('off, and never started');
        expect(text).toContain('proven; the spindle never on, never below the clear height');
        expect(text).not.toMatch(/rpm|Chip load/);
        continue;
      }
      expect(text).toContain(
        'proven; at most 0.0012 mm too much (limit 0.010 mm) and 0.0023 mm too little (limit 0.020 mm)',
      );
      if (job.kind === 'laser') continue;
      expect(text).toContain(`no. ${job.tool.id}, `);
      expect(text).toContain(`${job.feeds.rpm} rpm`);
      expect(text).toContain(job.feeds.boundBy);
      expect(text).toContain('Chip load from');
    }
  });

  it('put the chip load that the feed really gives beside the one aimed at', () => {
    const slowed = plan.jobs.map((job) =>
      job.kind === 'router'
        ? { ...job, feeds: { ...job.feeds, rpm: 20000, feed: 200, chipLoad: 0.02 } }
        : job,
    );
    const text = programSection(writeFeedNotes(slowed, [], parlour, workshop), 'fingerboard-slots.nc');
    // 200 / (20000 x 2) = 0.005.
    expect(text).toContain('aimed at 0.0200 mm a tooth; 0.0050 mm at this feed');
    expect(text).toContain('200 mm/min (7.9 in/min)');
  });

  it('print speed of the edge, depth, bending and what bound each choice', () => {
    const text = programSection(page, 'fingerboard-slots.nc');
    // 0.6 mm at 24000 rpm: pi x 0.6 x 24 = 45.2 m/min, 148 ft/min.
    expect(text).toContain('45 m/min (148 ft/min)');
    expect(text).toMatch(
      /\| Spindle bound by +\| limited by spindle speed, 24000 rpm; the edge could run at 300 m\/min/,
    );
    expect(text).toMatch(/\| Plunge bound by +\| 0.3 of the sideways feed/);
    expect(text).toMatch(/\| Step down bound by +\| 0.5 times the diameter in tropical hardwood/);
    expect(text).toMatch(/gives way by 0\.0\d\d mm under about 1\.\d N/);
    expect(text).toContain('25 mm out of the collet');
    expect(text).not.toContain('Finishing ring');
    expect(programSection(page, 'fingerboard-outline.nc')).toContain(
      'limited by deflection, 0.02 mm at the tip',
    );
    const markers = programSection(page, 'fingerboard-markers.nc');
    expect(markers).toMatch(/the last 0\.15 mm of a bore at \d+ mm\/min/);
    expect(markers).toContain("limited by the machine's acceleration round the smallest bore");
  });

  it('give a drill its feed of one turn and its peck', () => {
    const text = programSection(page, 'fingerboard-pins.nc');
    expect(text).toContain('0.032 mm, 2 % of the diameter');
    expect(text).toContain('1.60 mm (0.063 in) at most');
    expect(text).not.toMatch(/Bending|Step down|Thickest/);
  });

  it('say where the minutes go, and by which model', () => {
    const { minutes, time } = figures.find((f) => f.program === 'fingerboard-slots.nc') ?? {};
    expect(programSection(page, 'fingerboard-slots.nc')).toContain(
      `${minutes?.toFixed(1)} minutes: ${time?.cutting.toFixed(1)} cutting, ${time?.travel.toFixed(1)} travel, ${time?.waiting.toFixed(1)} waiting; 93 % of the cutting way at the written feed (by trapezoidal motion with look-ahead)`,
    );
  });

  it('give a laser its power, speed and kerf', () => {
    const text = programSection(page, 'radius-block-plates.nc');
    expect(text).toContain('70 % (S700) at 600 mm/min');
    expect(text).toContain('0.16 mm, corrected in the program');
    expect(text).toContain('never leave a laser alone');
    expect(text).not.toContain('small cutters break');
  });

  it('warn of the small cutter where it is used', () => {
    expect(programSection(page, 'fingerboard-slots.nc')).toContain('small cutters break');
    expect(programSection(page, 'fingerboard-outline.nc')).not.toContain('small cutters break');
  });

  it('add the minutes up only when all are known', () => {
    const sum = figures.reduce((a, f) => a + f.minutes, 0).toFixed(1);
    expect(page).toContain(`${sum} minutes of machine time`);
    const some = writeFeedNotes(plan.jobs, [], parlour, workshop, figures.slice(1));
    expect(some).not.toContain('minutes of machine time');
  });

  it('say loudly when a program is not proven', () => {
    const failed = figures.map((f) => ({ ...f, passed: false }));
    expect(writeFeedNotes(plan.jobs, [], parlour, workshop, failed)).toContain('NOT PROVEN: do not run it');
  });

  it('list what is left to the hand, with the reason', () => {
    expect(section(page, '## By hand')).toContain('`drill-side-markers`');
    expect(section(page, '## By hand')).toContain('3: `side-marker-05` to `side-marker-12-b`');
  });

  it('hold no hostile name as anything but text', () => {
    const name = '# <b>*x*</b> | [y](http://z)\n## no';
    const hostile = writeFeedNotes(
      plan.jobs.map((job) => ({ ...job, part: { ...job.part, material: name } })),
      plan.handSteps,
      { ...parlour, name },
      { ...workshop, name },
    );
    const rows = hostile.split('\n');
    expect(rows.filter((r) => r.startsWith('## '))).toEqual(
      page.split('\n').filter((r) => r.startsWith('## ')),
    );
    expect(hostile).not.toMatch(/<b>|\[y\]\(/);
    const stock = rows.filter((r) => r.startsWith('| Stock'));
    expect(stock.length).toBe(plan.jobs.length);
    expect(stock.every((r) => r.replaceAll('\\|', '').split('|').length === 4)).toBe(true);
  });
});

describe('the first page', () => {
  const pageOf = (instrument: Instrument, shop: Shop): string => {
    const made = planOf(instrument, shop);
    return writeStartHere({
      instrument,
      shop,
      parts: partsOf(instrument, shop),
      jobs: made.jobs,
      handSteps: made.handSteps,
      files: [
        { path: 'index.html', what: 'preview of every program' },
        { path: 'sheet.txt', what: 'bench sheet' },
      ],
      figures,
    });
  };
  const page = pageOf(parlour, workshop);

  it('begins with what to open, in the order given', () => {
    expect(section(page, '## 2.')).toContain(
      '1. `index.html`: preview of every program\n2. `sheet.txt`: bench sheet',
    );
  });

  it('has wire, markers, rod, pins, blanks, kerf and every cutter measured before any cut', () => {
    const text = section(page, '## 3.');
    for (const what of [
      'Fret wire, tang',
      'Face markers of 7 mm',
      'Side marker rod',
      'Bridge pins',
      'Blank: Fingerboard',
    ]) {
      expect(text).toContain(what);
    }
    expect(text).toContain('Laser kerf in plywood 3 mm');
    expect(text).toContain('| no. 1, slot cutter');
    expect(text).toContain('0.59 to 0.61 mm');
  });

  it('tells a dry run above the wood by more than the deepest cut', () => {
    // 6.5 mm blank and 1 mm into the board below: 8 mm, and 10 to spare.
    expect(section(page, '## 4.')).toContain('raise Z zero by 18 mm');
    expect(section(page, '## 4.')).toContain('beam off');
  });

  it('says how low the tool travels between features, and what may not stand in its way', () => {
    expect(section(page, '## 4.')).toContain('the tool travels 1.5 mm above the wood');
    expect(section(page, '## 4.')).toContain('names it under keepOuts');
  });

  it('names every program and hand step once, each with where to stop and check', () => {
    const text = section(page, '## 5.');
    for (const name of [...plan.jobs.map((j) => j.program), ...plan.handSteps.map((s) => s.step)]) {
      expect(text.split(`\`${name}\``)).toHaveLength(2);
    }
    const steps = text.split('\n').filter((l) => /^\d+\. /.test(l));
    expect(steps).toHaveLength(plan.jobs.length + plan.handSteps.length);
    expect(steps.every((s) => s.includes('**Stop and check:**'))).toBe(true);
  });

  it('says what a proof cannot see', () => {
    const text = section(page, '## 6.');
    for (const words of [
      'profile itself',
      'true diameter',
      'touched off',
      'reads a word differently',
      'stock',
    ]) {
      expect(text).toContain(words);
    }
  });

  it('works for a shop without machines', () => {
    const text = pageOf(parlour, byHand);
    expect(text).not.toContain('true width');
    expect(text).toContain('saw two slots in scrap');
    expect(text).not.toMatch(/Never in a laser|Workholding|undefined|NaN/);
  });
});

describe('the order of work', () => {
  it('puts hand steps where their work belongs: pins first, side markers in the finished edge', () => {
    const made = planOf(parlour, byHand);
    const [fingerboard] = workOrder(partsOf(parlour, byHand), made.jobs, made.handSteps);
    const steps = fingerboard?.items.map((i) => (i.kind === 'hand' ? i.step.step : i.jobs[0].program));
    expect(steps).toEqual([
      'drill-index-pins',
      'saw-fret-slots',
      'bore-face-markers',
      'saw-board-outline',
      'drill-side-markers',
    ]);
  });

  it('sets a hand step between two programs', () => {
    const shop: Shop = { ...workshop, work: { ...workshop.work, fretSlots: 'hand' } };
    const made = planOf(parlour, shop);
    const [fingerboard] = workOrder(partsOf(parlour, shop), made.jobs, made.handSteps);
    const steps = fingerboard?.items.map((i) => (i.kind === 'hand' ? i.step.step : i.jobs[0].operation));
    expect(steps).toEqual([
      'walk round',
      'index pins',
      'saw-fret-slots',
      'face markers',
      'outline',
      'drill-side-markers',
    ]);
  });

  it('refuses work on a part that is not there', () => {
    expect(() => workOrder([], plan.jobs, [])).toThrow('which is no part');
  });
});

describe('a part held by a skin', () => {
  const shop: Shop = { ...workshop, holding: { ...workshop.holding, by: 'skin', skin: 0.5 } };
  const held = planOf(parlour, shop);

  it('is freed by a step of its own, after its outline and before its side markers', () => {
    const [board] = workOrder(partsOf(parlour, shop), held.jobs, held.handSteps);
    const names = board?.items.map((item) =>
      item.kind === 'hand' ? item.step.step : (item.jobs[0].program as string),
    );
    expect(names?.slice(-3)).toEqual(['fingerboard-outline.nc', 'free-fingerboard', 'drill-side-markers']);
  });

  it('has its skin in the notes, with what a thin blank does, and its check before it is moved', () => {
    const notes = writeFeedNotes(held.jobs, held.handSteps, parlour, shop);
    const row = programSection(notes, 'fingerboard-outline.nc')
      .split('\n')
      .find((line) => line.startsWith('| Held by'));
    expect(row).toContain('a skin of 0.50 mm');
    expect(row).toContain('A blank of less than 6.00 mm');
    expect(programSection(notes, 'fingerboard-slots.nc')).not.toContain('Held by');
    const start = writeStartHere({
      instrument: parlour,
      shop,
      parts: partsOf(parlour, shop),
      jobs: held.jobs,
      handSteps: held.handSteps,
      files: [],
    });
    const lines = start.split('\n');
    const outline = lines.find((line) => line.includes('`fingerboard-outline.nc`'));
    const free = lines.find((line) => line.includes('`free-fingerboard`'));
    expect(outline).toContain('the skin is whole all round');
    expect(outline).not.toContain('both edges straight');
    expect(free).toContain('a skin of 0.5 mm holds the part in the blank');
    expect(free).toContain('both edges straight');
    expect(free).not.toContain('places');
  });

  it('is told from one held by tabs', () => {
    const notes = writeFeedNotes(plan.jobs, plan.handSteps, parlour, workshop);
    expect(programSection(notes, 'fingerboard-outline.nc')).toMatch(/Held by +\| \d+ tabs 6.00 mm/);
  });
});

describe('what is left to the bench', () => {
  const startOf = (instrument: Instrument, shop: Shop = workshop): string => {
    const made = planOf(instrument, shop);
    return writeStartHere({
      instrument,
      shop,
      parts: partsOf(instrument, shop),
      jobs: made.jobs,
      handSteps: made.handSteps,
      files: [],
    });
  };
  const order = (text: string, words: readonly string[]): void => {
    const places = words.map((word) => text.indexOf(word));
    expect(
      places.every((place) => place > 0),
      words.join(', '),
    ).toBe(true);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  };

  it('comes in the order that spares doing a thing twice', () => {
    order(startOf(parlour), [
      '`fingerboard-slots.nc`',
      '`fingerboard-outline.nc`',
      'Then by hand, from top to bottom',
      'Glue the face markers in',
      'Radius the board',
      'depth of every slot',
      'Set the index pins',
      'Fret:',
      'String it',
    ]);
    const radiused = { ...parlour.fingerboard, surfaceWhenSlotted: 'radiused' } as const;
    expect(startOf({ ...parlour, fingerboard: radiused })).not.toContain('Radius the board');
  });

  it('pulls the index pins before slotting; without pins nothing speaks of them', () => {
    const text = startOf(parlour);
    const pins = text.split('\n').find((line) => line.includes('`fingerboard-pins.nc`'));
    expect(pins).toContain('then pull both out again');
    order(text, ['`fingerboard-pins.nc`', 'pull both out again', '`fingerboard-slots.nc`']);
    const none = startOf({ ...parlour, indexPins: { ...parlour.indexPins, place: 'none' } });
    expect(none).not.toContain('pins.nc');
    expect(none).not.toMatch(/index pins|both pins/);
    expect(none).toContain('Glue the board to the neck');
  });

  it('checks the octave from where the nut face stands, or the last slot of a board that ends before it', () => {
    const slots = (instrument: Instrument): string =>
      startOf(instrument)
        .split('\n')
        .find((line) => line.includes('`fingerboard-slots.nc`')) ?? '';
    expect(slots(parlour)).toContain(
      'slot 12, the octave, lies 314.00 mm (12.362 in) from the nut face: half the scale',
    );
    const forward = slots({ ...parlour, nut: { ...parlour.nut, setForward: 0.5 } });
    expect(forward).toContain('slot 12, the octave, lies 313.50 mm (12.343 in) from the nut face');
    expect(forward).toContain('the nut face stands 0.50 mm (0.020 in) forward of that');
    const short = slots({
      ...parlour,
      frets: { ...parlour.frets, count: 10, list: parlour.frets.list.slice(0, 10), octave: null },
      fingerboard: { ...parlour.fingerboard, widthAt: { fret: 10, width: 55 } },
      indexPins: { ...parlour.indexPins, frets: [2, 9] },
      faceMarkers: { ...parlour.faceMarkers, at: [] },
      sideMarkers: { ...parlour.sideMarkers, at: [] },
    });
    // 628 (1 - 2^(-10/12)), the twelfth root of two by hand.
    expect(short).toContain('slot 10, the last, lies 275.55 mm');
    expect(short).not.toContain('octave, lies');
  });
});
