import { placeOf } from './compare.ts';
import { type Entities, readEntities } from './entities.ts';
import { type LayerEntry, readLayers, unitFaults } from './header.ts';
import { type Matching, matchShapes, repeats } from './match.ts';
import { readSections, runs, type Section, type Sections } from './tags.ts';
import type { DrawingCheck, DrawingProof, Fault, FoundShape, MeantShape } from './types.ts';

/** Written coordinates carry six decimals; what is off by more than this (mm) is another place. */
const PLACE_LIMIT = 0.001;

/** Stands for the distance to something that is not there at all; a file of checks cannot hold an infinity. */
const NOWHERE = 1e6;

/**
 * Reads a DXF text anew and holds it against the plain list of what it was meant to show, both ways: units and layers
 * declared, nothing missing, nothing extra, outlines closed, nothing drawn twice. Millimetres.
 */
export function proveDrawing(text: string, meant: readonly MeantShape[]): DrawingProof {
  const sections = readSections(text);
  const entities = readEntities(one(sections, 'ENTITIES')?.tags ?? []);
  const matching = matchShapes(meant, entities.shapes, PLACE_LIMIT);
  const units = unitFaults(one(sections, 'HEADER'));
  const checks = [
    faultCheck('readable', sections.tagCount, structureFaults(sections)),
    faultCheck('units', units.seen, units.faults),
    layerCheck(readLayers(one(sections, 'TABLES')), entities, meant),
    faultCheck('plain entities', entities.count, [...entities.faults, ...blockFaults(sections)]),
    closedCheck(entities.shapes, meant),
    missingCheck(matching),
    extraCheck(matching, entities),
    repeatCheck(entities.shapes),
  ];
  return { passed: checks.every((check) => check.passed), checks };
}

function faultCheck(name: string, seen: number, faults: readonly Fault[]): DrawingCheck {
  const first = faults[0];
  return {
    name,
    passed: seen > 0 && faults.length === 0,
    value: faults.length,
    limit: 0,
    seen,
    line: first?.line ?? 0,
    place: first?.place ?? null,
    text: first?.text ?? (seen > 0 ? '' : 'nothing was there to check'),
  };
}

function one(sections: Sections, name: string): Section | undefined {
  return sections.list.find((section) => section.name === name);
}

function structureFaults(sections: Sections): Fault[] {
  const wrongCounts = ['HEADER', 'TABLES', 'ENTITIES'].flatMap((name): Fault[] => {
    const count = sections.list.filter((section) => section.name === name).length;
    return count === 1 ? [] : [{ line: 0, text: `there are ${count} ${name} sections` }];
  });
  return [...sections.faults, ...wrongCounts];
}

/** Blocks may stand in the file, but nothing may be drawn in them: it could appear anywhere. */
function blockFaults(sections: Sections): Fault[] {
  return runs(one(sections, 'BLOCKS')?.tags ?? [])
    .filter((run) => run[0]?.value !== 'BLOCK' && run[0]?.value !== 'ENDBLK')
    .map((run) => ({ line: run[0]?.line ?? 0, text: `${run[0]?.value} is hidden in a block` }));
}

function layerCheck(
  declared: readonly LayerEntry[],
  entities: Entities,
  meant: readonly MeantShape[],
): DrawingCheck {
  const known = new Set(meant.map((shape) => shape.layer));
  const names = new Set(declared.map((layer) => layer.name));
  const hidden = declared
    .filter((layer) => layer.hidden)
    .map(({ name, line }) => ({ line, text: `layer ${name} is off or frozen` }));
  const used = entities.shapes.flatMap((shape): Fault[] => {
    if (!known.has(shape.layer)) return [fault(shape, `layer ${shape.layer} was not meant`)];
    return names.has(shape.layer) ? [] : [fault(shape, `layer ${shape.layer} is not declared`)];
  });
  const absent = [...known]
    .filter((name) => !names.has(name))
    .map((name) => ({ line: 0, text: `layer ${name} is not declared` }));
  return faultCheck('layers', declared.length, [...hidden, ...used, ...absent]);
}

/** An outline that stops short of its start is not closed, and one that comes back to it must say so. */
function closedCheck(found: readonly FoundShape[], meant: readonly MeantShape[]): DrawingCheck {
  const openLayers = new Set(meant.filter((m) => m.kind === 'chain').map((m) => m.layer));
  const faults = found.flatMap((shape): Fault[] => {
    if (shape.kind !== 'chain') return [];
    const first = shape.vertices[0];
    const last = shape.vertices[shape.vertices.length - 1];
    if (first === undefined || last === undefined) return [fault(shape, 'an outline without corners')];
    const gap = Math.hypot(first[0] - last[0], first[1] - last[1]);
    if (gap <= PLACE_LIMIT) return [fault(shape, 'an outline returns to its start but is not marked closed')];
    return openLayers.has(shape.layer) ? [] : [fault(shape, `an outline is open by ${millimetres(gap)}`)];
  });
  // A drawing without outlines has none that could be open.
  return faultCheck('outlines closed', Math.max(1, found.length), faults);
}

function missingCheck({ missing, pairs, worst }: Matching): DrawingCheck {
  const first = missing[0];
  const text = first === undefined ? '' : missingWords(first.meant, first.nearest, missing.length);
  return {
    name: 'nothing missing',
    passed: missing.length === 0 && pairs > 0,
    value: missing.reduce((most, m) => Math.max(most, Math.min(m.nearest, NOWHERE)), worst?.by ?? 0),
    limit: PLACE_LIMIT,
    seen: pairs + missing.length,
    line: worst?.found.line ?? 0,
    place: first === undefined ? (worst === null ? null : placeOf(worst.found)) : placeOf(first.meant),
    text: text || (pairs > 0 ? '' : 'nothing was meant, so nothing can be proven'),
  };
}

function missingWords(meant: MeantShape, nearest: number, count: number): string {
  const others = count > 1 ? `; ${count - 1} more` : '';
  const near = Number.isFinite(nearest)
    ? `the nearest of its kind is off by ${millimetres(nearest)}`
    : 'there is none of its kind';
  return `a ${meant.kind} on layer ${meant.layer} is not where it was meant: ${near}${others}`;
}

function extraCheck({ extra }: Matching, { count }: Entities): DrawingCheck {
  return faultCheck(
    'nothing extra',
    count,
    extra.map((shape) => fault(shape, `a ${shape.kind} on layer ${shape.layer} was not meant`)),
  );
}

function repeatCheck(found: readonly FoundShape[]): DrawingCheck {
  return faultCheck(
    'nothing twice',
    found.length,
    repeats(found, PLACE_LIMIT).map((shape) => fault(shape, `a ${shape.kind} lies on another one`)),
  );
}

function fault(shape: FoundShape, text: string): Fault {
  return { line: shape.line, text, place: placeOf(shape) };
}

function millimetres(value: number): string {
  return `${Number(value.toPrecision(4))} mm`;
}
