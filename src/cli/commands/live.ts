import { createLiveJob, type LiveView } from '../../app/liveJob.ts';
import { type Code, CommandFailure, EXIT } from '../exit.ts';
import { shownPath } from '../files.ts';
import { followFiles } from '../live/follow.ts';
import { type Served, servePage } from '../live/serve.ts';
import type { Words } from '../run.ts';
import { readSources } from '../sources.ts';

/** `nutline preview --live`: a page on this machine that is drawn anew whenever a file it is drawn from is saved. */
export async function live(words: Words): Promise<Code> {
  const port = readPort(words.port);
  const job = createLiveJob();
  const read = new Set<string>();
  // The files are read first: when there is none to begin with, nothing is served.
  readSources(words, (path) => read.add(path));
  let view = drawNow();
  const served = await serve(port, () => view.html);
  const follower = followFiles(() => {
    const before = view;
    view = drawNow();
    follower.follow(read);
    served.tell(view.told);
    if (before.told.drawing !== view.told.drawing || before.told.text !== view.told.text) report(view);
  });
  follower.follow(read);
  served.tell(view.told);
  process.stdout.write(
    `http://127.0.0.1:${served.port}/ follows ${[...read].map(shownPath).join(', ')}. Ctrl-C ends it.\n`,
  );
  report(view);
  await ended();
  follower.close();
  await served.close();
  return EXIT.done;

  function drawNow(): LiveView {
    const known = [...read];
    read.clear();
    try {
      return job.draw(readSources(words, (path) => read.add(path)));
    } catch (error) {
      // A file that is away for a moment; the ones that were read before are followed until it is back.
      if (!(error instanceof CommandFailure)) throw error;
      for (const path of known) read.add(path);
      return job.fail(error.message);
    }
  }
}

function readPort(word: string | undefined): number {
  if (word === undefined) return 0;
  const port = Number(word);
  if (/^\d+$/.test(word) && port <= 65535) return port;
  throw new CommandFailure(
    EXIT.usage,
    `--port ${word} is no port. Allowed: a number from 1024 to 65535; left out, a free one is taken.`,
  );
}

async function serve(port: number, page: () => string): Promise<Served> {
  try {
    return await servePage(port, page);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    const why = { EADDRINUSE: 'another program has it', EACCES: 'the system keeps it for itself' }[
      String(code)
    ];
    if (why === undefined) throw error;
    throw new CommandFailure(
      EXIT.io,
      `Port ${port} cannot be had: ${why}. Choose another with --port, or leave it out.`,
    );
  }
}

function report({ told, isRight }: LiveView): void {
  process.stdout.write(`${told.head ?? ''}\n`);
  if (told.text !== null && told.text !== '') process.stderr.write(`${told.text}\n`);
  if (!isRight) process.stderr.write('Save the file again when it is mended.\n');
}

/** Until Ctrl-C, or until the system asks the program to end. */
function ended(): Promise<void> {
  return new Promise((done) => {
    process.once('SIGINT', () => done());
    process.once('SIGTERM', () => done());
  });
}
