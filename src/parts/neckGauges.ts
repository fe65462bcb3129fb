import { sectionsOn } from '../carving/along.ts';
import { gaugeRing, gaugeSize } from '../carving/gauge.ts';
import type { Ring, Vec } from '../geometry/types.ts';
import type { Layout } from '../layout/types.ts';
import type { Instrument } from '../profile/types.ts';
import type { PartSettings } from './settings.ts';
import type { OutlineFeature, Part } from './types.ts';

/** Gauges side by side in so many columns. */
const COLUMNS = 3;

/** A gauge for the back at each station of the neck, all on one panel; none where none are asked for. */
export function makeNeckGauges({ neckShape }: Instrument, layout: Layout, settings: PartSettings): Part[] {
  const { shaft } = layout;
  const gauges = neckShape?.gauges ?? null;
  if (shaft === null || gauges === null) return [];
  const { between } = settings.allowances;
  const sectionAt = sectionsOn(shaft);
  const sections = shaft.stations.map(({ x, label }) => ({ label, section: sectionAt(x) }));
  const sizes = sections.map(({ section }) => gaugeSize(section, gauges.wall));
  const [wide, high] = [Math.max(...sizes.map((s) => s.width)), Math.max(...sizes.map((s) => s.height))];
  const columns = Math.min(COLUMNS, sections.length);
  const rows = Math.ceil(sections.length / columns);
  const features = sections.map(({ label, section }, i): OutlineFeature => {
    const corner: Vec = [
      between + (i % columns) * (wide + between),
      between + Math.floor(i / columns) * (high + between),
    ];
    return {
      id: `neck-gauge-${label.replace('+', '-plus')}`,
      work: 'neckGauges',
      kind: 'outline',
      ring: moved(gaugeRing(section, gauges.wall), corner),
      keep: 'inside',
    };
  });
  return [
    {
      id: 'neck-gauges',
      title: 'Gauges for the back of the neck',
      material: gauges.materialClass,
      materialClass: gauges.materialClass,
      blank: {
        box: { x: [0, columns * (wide + between) + between], y: [0, rows * (high + between) + between] },
        thickness: gauges.thickness,
        top: { kind: 'plane', z: 0 },
      },
      features,
      datum: `lower left corner of the panel, z = 0 on its top; gauges from the left and from below for frets ${sections.map(({ label }) => label).join(', ')}`,
    },
  ];
}

function moved(ring: Ring, [dx, dy]: Vec): Ring {
  return ring.map(({ x, y, bulge }) => ({ x: x + dx, y: y + dy, bulge }));
}
