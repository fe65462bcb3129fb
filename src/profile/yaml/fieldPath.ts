/** Paths of fields: `fingerboard.radius`, `strings[2].pitch`. The root is ''. */

export const childOf = (path: string, key: string | number): string => {
  if (typeof key === 'number') return `${path}[${key}]`;
  return path === '' ? key : `${path}.${key}`;
};

/** The path one step up; '' for a top-level field. */
export const parentOf = (path: string): string => path.replace(/(?:\[\d+\]|(?:^|\.)[^.[\]]*)$/, '');

/** One spelling for `strings.2.pitch` and `strings[2].pitch`. */
export const canonical = (path: string): string => path.replace(/(?:^|\.)(\d+)(?=\.|\[|$)/g, '[$1]');

export const joinPath = (steps: readonly PropertyKey[]): string =>
  steps.reduce<string>((path, step) => childOf(path, typeof step === 'number' ? step : String(step)), '');
