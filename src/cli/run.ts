import yargs, { type Argv } from 'yargs';
import { VERSION } from '../app/version.ts';
import { type Code, CommandFailure, EXIT } from './exit.ts';

/** What a command's words came to. Every command has these; each uses its own. */
export interface Words {
  readonly profile?: string | undefined;
  readonly file?: string | undefined;
  readonly shop?: string | undefined;
  readonly out?: string | undefined;
  readonly intent?: string | undefined;
  readonly json?: boolean | undefined;
  readonly explain?: boolean | undefined;
  readonly tuning?: string | undefined;
  readonly concertPitch?: string | undefined;
  readonly straightedge?: string | undefined;
  readonly aim?: string | undefined;
  readonly paper?: string | undefined;
  readonly printedBar?: string | undefined;
  readonly from?: string | undefined;
  readonly set?: readonly string[] | undefined;
  readonly as?: string | undefined;
  readonly svg?: string | undefined;
  readonly png?: string | undefined;
  readonly program?: string | undefined;
  readonly part?: string | undefined;
  readonly inches?: boolean | undefined;
  readonly live?: boolean | undefined;
  readonly port?: string | undefined;
}

/** A command with its words, not yet run. */
type Command = () => Promise<Code>;

/**
 * Runs one command line; the answer is the exit code. Only here are failures turned into words on the screen. The words are
 * read first and the command is run after: when it runs within the parser, the parser makes the text of its help each time.
 */
export async function run(words: readonly string[]): Promise<Code> {
  const named: Command[] = [];
  try {
    commands((command) => named.push(command)).parseSync([...words]);
    const [command] = named;
    return command === undefined ? EXIT.done : await command();
  } catch (error) {
    return fail(error);
  }
}

function fail(error: unknown): Code {
  if (error instanceof CommandFailure) {
    process.stderr.write(`nutline: ${error.message}\n`);
    return error.code;
  }
  const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(
    `nutline: this is a fault of the tool, not of your files. Nothing was written.\n${text}\n`,
  );
  return EXIT.ourFault;
}

function commands(name: (command: Command) => void): Argv {
  const profile = (y: Argv): Argv =>
    y.positional('profile', {
      type: 'string',
      describe: 'the instrument, a YAML file; the bundled parlour when left out',
    });
  const shop = { type: 'string', describe: 'the shop file; the bundled home shop when left out' } as const;
  const json = { type: 'boolean', describe: 'print JSON for a script' } as const;
  return yargs()
    .scriptName('nutline')
    .usage(
      '$0 COMMAND [OPTIONS]\n\nFrom one instrument profile and one shop file to proven programs, drawings and cut lists.',
    )
    .command(
      'new <file>',
      'begin an instrument file: asks the questions a builder decides first, or takes them from --set',
      (y) =>
        y
          .positional('file', { type: 'string', describe: 'the file to write', demandOption: true })
          .option('from', {
            type: 'string',
            describe:
              'the instrument to begin from: a bundled one by name, or a file; asked for, or the parlour, when left out',
          })
          .option('set', {
            type: 'string',
            array: true,
            describe: 'a field and its value; nothing is asked then. May be given many times',
          })
          .example('$0 new my-guitar.yaml', 'asks, each question with its default')
          .example('$0 new my-guitar.yaml --set name=Fern --set scale.length=640', 'without a terminal')
          .example('$0 new fern.yaml --from sedge-ukulele --set name=Fern', 'begins from the ukulele'),
      (argv) => name(async () => (await import('./commands/new.ts')).newProfile(argv as Words)),
    )
    .command(
      'make [profile]',
      'make every program, drawing and list of an instrument, prove them, and write them',
      (y) =>
        profile(y)
          .option('shop', shop)
          .option('out', { type: 'string', describe: 'folder to write into', default: 'out' })
          .option('json', json)
          .example('$0 make my-guitar.yaml --shop my-shop.yaml', 'writes out/my-guitar/'),
      (argv) => name(async () => (await import('./commands/make.ts')).make(argv as Words)),
    )
    .command(
      'preview [profile]',
      'draw what the programs will do: a page to look through, or pictures without a browser',
      (y) =>
        profile(y)
          .option('shop', shop)
          .option('svg', {
            type: 'string',
            describe: 'draw pictures as SVG, into this file; into a file for each sheet when it is left out',
          })
          .option('png', { type: 'string', describe: 'the same as PNG' })
          .option('program', {
            type: 'string',
            describe: 'the program to draw, by its name or its number in cutting order',
          })
          .option('part', { type: 'string', describe: 'draw only programs for this part' })
          .option('live', {
            type: 'boolean',
            describe:
              'serve the page on this machine alone, drawn anew whenever a file is saved, until Ctrl-C',
          })
          .option('port', { type: 'string', describe: 'where --live serves; a free port when left out' })
          .option('inches', { type: 'boolean', describe: 'lengths on the pictures in inches' })
          .option('out', { type: 'string', describe: 'folder to write into', default: 'out' })
          .option('json', json)
          .example('$0 preview my-guitar.yaml', 'writes out/my-guitar-preview/preview.html')
          .example('$0 preview my-guitar.yaml --live', 'says the address to open in a browser')
          .example('$0 preview my-guitar.yaml --png', 'a picture of every program')
          .example('$0 preview my-guitar.yaml --program fingerboard-slots --svg slots.svg', 'one of them'),
      (argv) => name(async () => (await import('./commands/preview.ts')).preview(argv as Words)),
    )
    .command(
      'check [profile]',
      'read an instrument and a shop file and say all that is wrong with them',
      (y) =>
        profile(y)
          .option('shop', shop)
          .option('explain', { type: 'boolean', describe: 'list every value that was filled in, and why' })
          .option('json', json)
          .example('$0 check my-guitar.yaml --explain', 'shows the defaults as well'),
      (argv) => name(async () => (await import('./commands/check.ts')).check(argv as Words)),
    )
    .command(
      'sheet [profile]',
      'print the bench sheet: slots, markers, holes, with the datum of every column',
      (y) =>
        profile(y)
          .option('as', {
            choices: ['text', 'markdown', 'html', 'csv'],
            describe:
              'how it is written; all but text leave room for what was measured. On paper: nutline templates',
            default: 'text',
          })
          .option('json', json)
          .example('$0 sheet my-guitar.yaml > bench.txt', 'a sheet to print')
          .example('$0 sheet my-guitar.yaml --as csv > bench.csv', 'every figure in a row of its own'),
      (argv) => name(async () => (await import('./commands/sheet.ts')).sheet(argv as Words)),
    )
    .command(
      'strings [profile]',
      'print tension, tuning by fret and where a saddle would go, with bands',
      (y) =>
        profile(y)
          .option('tuning', {
            type: 'string',
            describe: 'other notes for the same set, bass side first, shown beside its own',
          })
          .option('concert-pitch', { type: 'string', describe: 'another frequency of A4 for them, hertz' })
          .option('json', json)
          .example('$0 strings my-guitar.yaml', 'tensions, cents by fret, set-backs')
          .example('$0 strings my-guitar.yaml --tuning "D2 A2 D3 G3 A3 D4"', 'the same set tuned down'),
      (argv) => name(async () => (await import('./commands/strings.ts')).strings(argv as Words)),
    )
    .command(
      'bridge [profile]',
      'print where the bridge goes, and the numbers of saddle, nut and pins',
      (y) =>
        profile(y)
          .option('json', json)
          .example('$0 bridge my-guitar.yaml', 'places from the nut, nut slots, saddle heights, reaming'),
      (argv) => name(async () => (await import('./commands/bridge.ts')).bridge(argv as Words)),
    )
    .command(
      'neckset [profile]',
      'print the neck’s angle, the board over the body, and what to take off the heel',
      (y) =>
        profile(y)
          .option('straightedge', {
            type: 'string',
            describe: 'measured: a straightedge on the frets above the bare top at the saddle line',
          })
          .option('aim', {
            type: 'string',
            describe: 'measured: how far the neck’s middle passes the bridge’s, and on which side',
          })
          .option('json', json)
          .example('$0 neckset my-guitar.yaml', 'what is aimed at')
          .example('$0 neckset my-guitar.yaml --straightedge "8 mm" --aim "1 mm treble"', 'what to take off'),
      (argv) => name(async () => (await import('./commands/neckset.ts')).neckset(argv as Words)),
    )
    .command(
      'templates [profile]',
      'write paper templates at 1:1: PDF on sheets that are joined by crosses, and SVG in one piece',
      (y) =>
        profile(y)
          .option('shop', shop)
          .option('out', { type: 'string', describe: 'folder to write into', default: 'out' })
          .option('paper', {
            type: 'string',
            describe: 'a4, a3, letter, ledger, or "roll 610 mm"',
            default: 'a4',
          })
          .option('printed-bar', {
            type: 'string',
            describe: 'what the 100 mm bars measured on a print, level x upright, to make up for the printer',
          })
          .option('json', json)
          .example('$0 templates my-guitar.yaml --paper letter', 'writes out/my-guitar-templates/')
          .example('$0 templates --printed-bar "99.2 mm x 99.6 mm"', 'the same, made larger by as much'),
      (argv) => name(async () => (await import('./commands/templates.ts')).templates(argv as Words)),
    )
    .command(
      'prove <file>',
      'read a program back and prove it against what it was meant to do, also after editing it',
      (y) =>
        y
          .positional('file', { type: 'string', describe: 'the program', demandOption: true })
          .option('intent', {
            type: 'string',
            describe: 'its intent file; found through manifest.json when left out',
          })
          .option('profile', {
            type: 'string',
            describe:
              'the instrument it was made from: refused when that file or a drawing it names has changed since',
          })
          .option('json', json)
          .example('$0 prove out/tarn-parlour/programs/fingerboard-slots.nc', 'says what it found'),
      (argv) => name(async () => (await import('./commands/prove.ts')).proveFile(argv as Words)),
    )
    .command(
      'cutlist [profile]',
      'print what to saw from which stock',
      (y) =>
        profile(y)
          .option('shop', shop)
          .option('json', json)
          .example('$0 cutlist my-guitar.yaml', 'a list to saw from'),
      (argv) => name(async () => (await import('./commands/cutlist.ts')).cutlist(argv as Words)),
    )
    .demandCommand(1, 'Name a command.')
    .strict()
    .recommendCommands()
    .version(VERSION)
    .alias('version', 'v')
    .help()
    .alias('help', 'h')
    .wrap(100)
    .exitProcess(false)
    .fail((message, error, instance) => {
      if (error) throw error;
      throw new CommandFailure(EXIT.usage, `${message}\n\n${usageOf(instance)}`);
    });
}

function usageOf(instance: unknown): string {
  const help = instance as { help?: () => unknown };
  const text = typeof help.help === 'function' ? help.help() : '';
  return typeof text === 'string' ? text : 'See nutline --help.';
}
