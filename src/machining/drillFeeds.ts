import type { MaterialClass, Tool } from '../profile/types.ts';

interface DrillRow {
  /** Feed of one turn and depth of one peck, as shares of the diameter. */
  readonly perTurn: number;
  readonly peck: number;
}

/** For twist drills (common practice, no source): too slow burns the wood, too deep a peck packs the flutes. */
const ROWS: Readonly<Record<MaterialClass, DrillRow>> = {
  'tropical hardwood': { perTurn: 0.02, peck: 1 },
  hardwood: { perTurn: 0.03, peck: 1.5 },
  softwood: { perTurn: 0.04, peck: 2 },
  plywood: { perTurn: 0.03, peck: 1.5 },
  mdf: { perTurn: 0.03, peck: 1.5 },
  acrylic: { perTurn: 0.015, peck: 0.5 },
  card: { perTurn: 0.03, peck: 2 },
  shell: { perTurn: 0.01, peck: 0.5 },
};

/** A turn never feeds more, mm: thick drills lift the work. */
const MOST_PER_TURN = 0.2;
/** A drill thinner than this pecks half as deep, mm: it packs and breaks first. */
const THIN = 1;

export interface DrillFeeds {
  /** mm per turn. */
  readonly perTurn: number;
  readonly source: string;
  /** mm. */
  readonly peck: number;
  readonly peckBoundBy: string;
}

/** Feed of one turn and deepest peck of a drill, both in mm; the shop's own figures first. */
export function drillFeedsFor(tool: Tool, material: MaterialClass): DrillFeeds {
  const { diameter, flutes, chipLoad, stepDownShare } = tool;
  const row = ROWS[material];
  const thin = diameter < THIN ? 0.5 : 1;
  const share = stepDownShare ?? row.peck * thin;
  return {
    perTurn: chipLoad === null ? Math.min(row.perTurn * diameter, MOST_PER_TURN) : chipLoad * flutes,
    source:
      chipLoad === null
        ? `${shortPercent(row.perTurn)} of the diameter a turn in ${material}, at most ${MOST_PER_TURN} mm: common practice, no source`
        : 'given for this tool in the shop file',
    peck: Math.min(diameter * share, tool.cuttingLength),
    peckBoundBy:
      stepDownShare === null
        ? `${share} times the diameter in ${material}, so that the flutes clear`
        : `the shop's own share, ${share} times the diameter`,
  };
}

function shortPercent(share: number): string {
  return `${Number((share * 100).toFixed(2))} %`;
}
