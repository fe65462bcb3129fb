/** Which strings are played as one. */
import type { GivenInstrument } from '../schema/instrument.ts';
import type { Course } from '../types.ts';

/** Runs of neighbouring strings with the same course number; a string without one is a course of its own. */
export function resolveCourses(strings: GivenInstrument['strings']): Course[] {
  const courses: Course[] = [];
  strings.forEach(({ course }, i) => {
    const last = courses.at(-1);
    if (last !== undefined && course !== undefined && course === strings[i - 1]?.course) {
      courses[courses.length - 1] = { ...last, size: last.size + 1 };
    } else courses.push({ first: i + 1, size: 1 });
  });
  return courses;
}
