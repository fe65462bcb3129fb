/** Ways to damage a written program, as a slip of hand, of a post or of a file transfer would. Text in, text out. */

export type Damage = (text: string) => string;

/** Replaces one whole line; `nth` counts from 1 among equal lines. Fails when there is none. */
export function line(from: string, to: string | null, nth = 1): Damage {
  return (text) => {
    const lines = text.split('\n');
    const hits = lines.flatMap((l, i) => (l === from ? [i] : []));
    const at = hits[nth - 1];
    if (at === undefined) throw new Error(`no line ${nth} reading ${from}`);
    return lines.flatMap((l, i) => (i !== at ? [l] : to === null ? [] : [to])).join('\n');
  };
}

/** Applies several one after another. */
export function all(...damages: readonly Damage[]): Damage {
  return (text) => damages.reduce((t, damage) => damage(t), text);
}

/** Replaces every match; fails when nothing changes. */
export function every(pattern: RegExp, to: string | ((...groups: string[]) => string)): Damage {
  return (text) => {
    const changed = typeof to === 'string' ? text.replace(pattern, to) : text.replace(pattern, to);
    if (changed === text) throw new Error(`nothing matches ${pattern}`);
    return changed;
  };
}

/** Maps the numbers behind some letters. */
export function numbers(letters: string, map: (value: number, letter: string) => number): Damage {
  return every(new RegExp(`([${letters}])(-?[\\d.]+)`, 'g'), (_, letter = '', digits = '') => {
    const value = Number(map(Number(digits), letter).toFixed(4));
    return `${letter}${value === 0 ? 0 : value}`;
  });
}

/** Cuts the text off after a share of its lines. */
export function truncate(share: number): Damage {
  return (text) => {
    const lines = text.split('\n');
    return `${lines.slice(0, Math.floor(lines.length * share)).join('\n')}\n`;
  };
}

/** Leaves out the lines from one to another, both included. */
export function without(first: number, last: number): Damage {
  return (text) =>
    text
      .split('\n')
      .filter((_, i) => i + 1 < first || i + 1 > last)
      .join('\n');
}

/** Line numbers of a text whose content is a given one. */
export function linesReading(text: string, content: string): number[] {
  return text.split('\n').flatMap((l, i) => (l === content ? [i + 1] : []));
}
