/** Where strings lie side by side. Millimetres. */

export type Spacing = 'equal gaps' | 'equal centres';

/** Strings side by side, bass side first, and how many of them make each course. */
export interface StringRow {
  readonly gauges: readonly number[];
  /** Strings in each course, bass side first; their sum is the number of strings. */
  readonly courses: readonly number[];
  /** Clear space between the strings of one course. */
  readonly courseGap: number;
}

/** A row in which every string is a course of its own. */
export const singleStrings = (gauges: readonly number[]): StringRow => ({
  gauges,
  courses: gauges.map(() => 1),
  courseGap: 0,
});

/**
 * Offsets of string centres from the bass-most one, for outer centres `spread` apart.
 * Equal gaps: the clear space between neighbouring courses is the same; equal centres: the middles of courses are evenly apart
 * (common practice, no source). A single string, or a single course, lies in the middle of the spread.
 */
export function spaceStrings(row: StringRow, spread: number, spacing: Spacing): number[] {
  const within = row.courses.flatMap((size) => Array.from({ length: size }, (_, i) => i > 0));
  const courses = row.courses.length;
  const offsets = offsetsInCourses(row, within);
  const first = offsets[0] ?? 0;
  const last = offsets[offsets.length - 1] ?? 0;
  if (courses < 2) return offsets.map((offset) => offset + spread / 2);
  if (spacing === 'equal centres') {
    const step = (spread - last + first) / (courses - 1);
    let course = -1;
    return offsets.map((offset, i) => {
      if (within[i] !== true) course += 1;
      return course * step + offset - first;
    });
  }
  const gap = courseSpace(row, spread);
  const centres: number[] = [];
  row.gauges.forEach((gauge, i) => {
    const before = centres[i - 1];
    const previous = row.gauges[i - 1];
    const clear = within[i] === true ? row.courseGap : gap;
    centres.push(
      before === undefined || previous === undefined ? 0 : before + previous / 2 + clear + gauge / 2,
    );
  });
  return centres;
}

/** Clear space between neighbouring courses when it is the same everywhere. */
export function courseSpace({ gauges, courses, courseGap }: StringRow, spread: number): number {
  const last = gauges.length - 1;
  const widths = gauges.map((gauge, i) => (i === 0 || i === last ? gauge / 2 : gauge));
  const inside = (gauges.length - courses.length) * courseGap;
  return (spread - inside - widths.reduce((a, b) => a + b, 0)) / (courses.length - 1);
}

/** Of each string from the middle between the outer strings of its course. */
function offsetsInCourses({ gauges, courseGap }: StringRow, within: readonly boolean[]): number[] {
  const raw: number[] = [];
  gauges.forEach((gauge, i) => {
    const before = raw[i - 1];
    raw.push(
      within[i] !== true || before === undefined
        ? 0
        : before + (gauges[i - 1] ?? 0) / 2 + courseGap + gauge / 2,
    );
  });
  return raw.map((offset, i) => {
    const next = within.findIndex((inside, k) => k > i && !inside);
    const end = raw[(next < 0 ? raw.length : next) - 1] ?? 0;
    return offset - end / 2;
  });
}
