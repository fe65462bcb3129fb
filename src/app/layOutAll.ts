import { type ReadBeside, readArtwork } from '../artwork/readArtwork.ts';
import { readEndArtwork } from '../artwork/readEndArtwork.ts';
import { layOut } from '../layout/layOut.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Outcome } from '../report/finding.ts';

/** The layout of an instrument with the artwork that its profile names; `readBeside` gives the text of a file beside the profile. */
export function layOutAll(instrument: Instrument, readBeside: ReadBeside = () => null): Outcome<Layout> {
  const artwork = readArtwork(instrument.faceMarkers, readBeside);
  if (!artwork.ok) return artwork;
  const end = readEndArtwork(instrument.fingerboard, readBeside);
  if (!end.ok) return end;
  const layout = layOut(instrument, artwork.value, end.value);
  return { ...layout, findings: [...artwork.findings, ...end.findings, ...layout.findings] };
}
