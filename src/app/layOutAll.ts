import { type ReadBeside, readArtwork, readBridgeOutline } from '../artwork/readArtwork.ts';
import { layOut } from '../layout/layOut.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { Outcome } from '../report/finding.ts';

/** The layout of an instrument with the artwork that its profile names; `readBeside` gives the text of a file beside the profile. */
export function layOutAll(instrument: Instrument, readBeside: ReadBeside = () => null): Outcome<Layout> {
  const artwork = readArtwork(instrument.faceMarkers, readBeside);
  const outline = readBridgeOutline(instrument.bridge.body, readBeside);
  const read = [...artwork.findings, ...outline.findings];
  if (!artwork.ok || !outline.ok) return { ok: false, findings: read };
  const layout = layOut(instrument, artwork.value, outline.value);
  return { ...layout, findings: [...read, ...layout.findings] };
}
