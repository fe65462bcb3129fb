import { type ReadBeside, readArtwork } from '../artwork/readArtwork.ts';
import { readEndArtwork } from '../artwork/readEndArtwork.ts';
import { readHeadOutline } from '../artwork/readHeadOutline.ts';
import { layOut } from '../layout/layOut.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Outcome } from '../report/finding.ts';

/** The layout of an instrument with the artwork that its profile names; `readBeside` gives the text of a file beside the profile. */
export function layOutAll(instrument: Instrument, readBeside: ReadBeside = () => null): Outcome<Layout> {
  const artwork = readArtwork(instrument.faceMarkers, readBeside);
  const end = readEndArtwork(instrument.fingerboard, readBeside);
  const head = readHeadOutline(instrument.headstock, readBeside);
  const read = [...artwork.findings, ...end.findings, ...head.findings];
  if (!artwork.ok || !end.ok || !head.ok) return { ok: false, findings: read };
  const layout = layOut(instrument, artwork.value, { end: end.value, head: head.value });
  return { ...layout, findings: [...read, ...layout.findings] };
}
