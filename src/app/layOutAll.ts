import { type ReadBeside, readArtwork } from '../artwork/readArtwork.ts';
import { readHeadOutline } from '../artwork/readHeadOutline.ts';
import { layOut } from '../layout/layOut.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Outcome } from '../report/finding.ts';

/** The layout of an instrument with the artwork that its profile names; `readBeside` gives the text of a file beside the profile. */
export function layOutAll(instrument: Instrument, readBeside: ReadBeside = () => null): Outcome<Layout> {
  const artwork = readArtwork(instrument.faceMarkers, readBeside);
  const head = readHeadOutline(instrument.headstock, readBeside);
  if (!artwork.ok) return { ok: false, findings: [...artwork.findings, ...head.findings] };
  if (!head.ok) return { ok: false, findings: [...artwork.findings, ...head.findings] };
  const layout = layOut(instrument, artwork.value, head.value);
  return { ...layout, findings: [...artwork.findings, ...head.findings, ...layout.findings] };
}
