import type { PageFonts, PageSize } from '../writers/pdf/page.ts';
import { PAPERS, type Paper } from '../writers/pdf/paper.ts';
import type { Design } from './design.ts';
import type { OutputFile } from './types.ts';
import { benchPageOf, orderPageOf } from './workPages.ts';

/** The bench sheets and the order of work as PDF, the one on sheets that lie, the other on sheets that stand. */
export async function paperPages(
  made: Design,
  paper: Paper,
  profileHash: string,
  fonts: PageFonts,
): Promise<OutputFile[]> {
  const { writePagePdf } = await import('../writers/pdf/page.ts');
  const standing = sizeOf(paper);
  const lying = { width: standing.height, height: standing.width };
  const pages = [
    {
      name: 'bench-sheets',
      size: lying,
      page: benchPageOf(made.instrument.value, made.layout, profileHash),
    },
    { name: 'order-of-work', size: standing, page: orderPageOf(made, [], profileHash) },
  ];
  return Promise.all(
    pages.map(async ({ name, size, page }) => ({
      path: `${name}.pdf`,
      role: 'sheet' as const,
      part: null,
      operation: null,
      bytes: await writePagePdf(page, size, fonts),
    })),
  );
}

/** A roll is for what is laid on the wood; pages to read go on the first of the sheets. */
function sizeOf(paper: Paper): PageSize {
  const sheet = paper.kind === 'sheet' ? paper : PAPERS.find((p) => p.kind === 'sheet');
  if (sheet?.kind !== 'sheet') throw new Error('no sheet of paper is known');
  return { width: sheet.width, height: sheet.height };
}
