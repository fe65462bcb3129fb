import { SVGPathData, SVGPathDataTransformer } from 'svg-pathdata';
import type { Vec } from '../geometry/types.ts';
import type { Curve } from './curves.ts';

/** One subpath of path data, in its own units and with y as it is written. */
export interface Subpath {
  readonly curves: readonly Curve[];
  /** It ends with a closing command. */
  readonly closed: boolean;
}

/** Curves of path data, or null when it is no path data. Arcs stay arcs, quadratic curves become cubic ones: both exactly. */
export function readPathData(data: string): Subpath[] | null {
  try {
    const path = new SVGPathData(data).toAbs().normalizeHVZ(false, true, true).normalizeST().qtToC();
    return subpathsOf(path.commands);
  } catch (error) {
    if (error instanceof SyntaxError || error instanceof Error) return null;
    throw error;
  }
}

type Command = SVGPathData['commands'][number];

function subpathsOf(commands: readonly Command[]): Subpath[] {
  const subpaths: Subpath[] = [];
  let curves: Curve[] = [];
  let [start, at]: [Vec, Vec] = [
    [0, 0],
    [0, 0],
  ];
  const end = (closed: boolean): void => {
    if (curves.length > 0) subpaths.push({ curves, closed });
    curves = [];
  };
  for (const command of commands) {
    if (command.type === SVGPathData.CLOSE_PATH) {
      if (!isSame(at, start)) curves.push({ kind: 'line', from: at, to: start });
      end(true);
      at = start;
    } else if (command.type === SVGPathData.MOVE_TO) {
      end(false);
      start = [command.x, command.y];
      at = start;
    } else {
      const curve = curveOf(command, at);
      if (curve !== null) curves.push(curve);
      at = endOf(command);
    }
  }
  end(false);
  return subpaths;
}

function isSame(a: Vec, b: Vec): boolean {
  return a[0] === b[0] && a[1] === b[1];
}

function endOf(command: Command): Vec {
  if (!('x' in command && 'y' in command)) throw new Error(`a path command of type ${command.type}`);
  return [command.x, command.y];
}

function curveOf(command: Command, from: Vec): Curve | null {
  const to = endOf(command);
  switch (command.type) {
    case SVGPathData.LINE_TO:
      return isSame(from, to) ? null : { kind: 'line', from, to };
    case SVGPathData.CURVE_TO:
      return { kind: 'cubic', p: [from, [command.x1, command.y1], [command.x2, command.y2], to] };
    case SVGPathData.ARC:
      return isSame(from, to) ? null : arcOf(command, from, to);
    default:
      throw new Error(`a path command of type ${command.type}`);
  }
}

/** An elliptic arc by its centre (SVG 1.1, appendix F.6.5, worked out by the library). */
function arcOf(command: Command & { type: typeof SVGPathData.ARC }, from: Vec, to: Vec): Curve {
  const move = { type: SVGPathData.MOVE_TO, relative: false, x: from[0], y: from[1] } as const;
  const annotate = SVGPathDataTransformer.ANNOTATE_ARCS();
  annotate(move);
  const arc = annotate({ ...command });
  if (Array.isArray(arc) || arc.type !== SVGPathData.ARC) throw new Error('an arc that is none');
  const { rX, rY, cX, cY, phi1, phi2, xRot } = arc;
  if (rX === 0 || rY === 0) return { kind: 'line', from, to };
  if (cX === undefined || cY === undefined || phi1 === undefined || phi2 === undefined) {
    throw new Error('an arc without a centre');
  }
  const turn = (xRot * Math.PI) / 180;
  return {
    kind: 'ellipse',
    centre: [cX, cY],
    u: [rX * Math.cos(turn), rX * Math.sin(turn)],
    v: [-rY * Math.sin(turn), rY * Math.cos(turn)],
    from: (phi1 * Math.PI) / 180,
    sweep: ((phi2 - phi1) * Math.PI) / 180,
  };
}
