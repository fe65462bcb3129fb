/** Ways to write a program anew that change nothing of what it does. */

export type Rewrite = (text: string) => string;

/** The shortest line length that a bundled control has: a line that would grow beyond it stays as it is. */
const SHORTEST_LIMIT = 80;

function eachLine(text: string, change: (line: string, number: number) => string): string {
  return text
    .split('\n')
    .map((line, i) => {
      const next = line === '' ? line : change(line, i);
      return next.length > SHORTEST_LIMIT ? line : next;
    })
    .join('\n');
}

/** Whether a line holds nothing but a remark or a % sign. */
function isBare(line: string): boolean {
  return /^\s*(N\d+\s*)?(\([^)]*\)|%)?\s*$/.test(line);
}

function withoutNumber(line: string): string {
  return line.replace(/^N\d+ ?/, '');
}

/** What is in force after a line's words: its axes, its feed and its motion. */
function takeIn(words: readonly string[], now: Map<string, string>): void {
  // After a change of tools the machine stands nobody knows where.
  if (words.some((word) => /^M0?6$/.test(word))) now.clear();
  if (words.some((word) => /^G(8|9[89])/.test(word))) now.delete('motion');
  for (const word of words) {
    if (/^[XYZF]/.test(word)) now.set(word.charAt(0), word);
    else if (/^G0?[0-3]$/.test(word)) now.set('motion', word);
  }
}

/** Every axis word, motion word and feed in force is written again on every line that moves. */
function repeated(text: string): string {
  const now = new Map<string, string>();
  return eachLine(text, (line) => {
    if (isBare(line)) return line;
    const [, number = '', body = ''] = /^(N\d+ ?)?(.*)$/.exec(line) ?? [];
    const words = body.match(/[A-Z]-?[\d.]+/g) ?? [];
    const moves = words.some((word) => /^[XYZ]/.test(word));
    takeIn(words, now);
    const motion = now.get('motion');
    if (!moves || motion === undefined) return line;
    const kept = words.filter((word) => !/^([XYZF]|G0?[0-3]$)/.test(word));
    // An axis that has not been named yet stands nobody knows where.
    const axes = ['X', 'Y', 'Z'].flatMap((letter) => now.get(letter) ?? []);
    const feed = /^G0?0$/.test(motion) ? [] : [now.get('F') ?? ''];
    return `${number}${[motion, ...axes, ...kept, ...feed].join(' ').trim()}`;
  });
}

export const REWRITES: Readonly<Record<string, Rewrite>> = {
  indented: (text) => eachLine(text, (line, i) => `${i % 3 === 0 ? '\t' : '   '}${line}`),
  'blanks between words': (text) =>
    eachLine(text, (line) => line.replace(/([A-Z]-?[\d.]+) ?(?=[A-Z])/g, '$1   ')),
  'no blanks': (text) =>
    eachLine(text, (line) => (isBare(line) ? line : line.replace(/ (?=[A-Z][-\d.])/g, ''))),
  numbered: (text) =>
    eachLine(text, (line, i) => (line === '%' ? line : `N${10 * (i + 1)} ${withoutNumber(line)}`)),
  'numbers taken out': (text) => eachLine(text, withoutNumber),
  'remarks changed': (text) => text.replace(/\([^)]*\)/g, '(T9 M6 G20, S0 as it may be)'),
  'remarks taken out': (text) => text.replace(/^(N\d+ )?\([^)]*\)\n/gm, ''),
  'remarks added': (text) => eachLine(text, (line) => (line === '%' ? line : `${line} (as planned)`)),
  'blank lines': (text) => text.replace(/\n/g, '\n\n  \n'),
  'lower case': (text) => text.toLowerCase(),
  'carriage returns': (text) => text.replace(/\n/g, '\r\n'),
  'coordinates repeated': repeated,
  'leading zeros': (text) =>
    eachLine(text, (line) => (isBare(line) ? line : line.replace(/\b([GM])([0-9])\b/g, '$10$2'))),
  'decimals filled up': (text) =>
    eachLine(text, (line) => (isBare(line) ? line : line.replace(/([XYZIJK])(-?\d+)(?![\d.])/g, '$1$2.000'))),
  'plus signs': (text) =>
    eachLine(text, (line) => (isBare(line) ? line : line.replace(/([XYZIJKR])(?=[\d.])/g, '$1+'))),
  'the other program end': (text) =>
    text.replace(/\bM(2|30)\b(?!\d)/g, (_, code: string) => (code === '2' ? 'M30' : 'M2')),
  'no line end at the end': (text) => text.replace(/\n$/, ''),
};
