import type {
  IArcEntity,
  ICircleEntity,
  IEllipseEntity,
  IEntity,
  ILineEntity,
  ILwpolylineEntity,
  IPolylineEntity,
  ISplineEntity,
} from 'dxf-parser';
import type { Vec } from '../geometry/types.ts';
import type { Curve } from './curves.ts';
import { splineCurves } from './spline.ts';

const FULL = 2 * Math.PI;

/** An entity's curves, and whether it says that they close. A text: why they cannot be cut. */
export type EntityCurves = { readonly curves: readonly Curve[]; readonly closed: boolean } | string;

interface Point {
  readonly x: number;
  readonly y: number;
}

const vec = ({ x, y }: Point): Vec => [x, y];

/** The curves of one entity in the units of its file. */
export function curvesOf(entity: IEntity): EntityCurves {
  if (isTurnedOver(entity)) return 'it is drawn on a plane of its own (seen from behind or from the side)';
  switch (entity.type) {
    case 'LINE':
      return lineOf(entity as ILineEntity);
    case 'CIRCLE':
      return circleOf(entity as ICircleEntity);
    case 'ARC':
      return arcOf(entity as IArcEntity);
    case 'ELLIPSE':
      return ellipseOf(entity as IEllipseEntity);
    case 'LWPOLYLINE': {
      const { vertices, shape } = entity as ILwpolylineEntity;
      return polylineOf(vertices, shape);
    }
    case 'POLYLINE':
      return oldPolylineOf(entity as IPolylineEntity);
    case 'SPLINE':
      return splineOf(entity as ISplineEntity);
    default:
      return `a ${entity.type} has no outline that can be cut`;
  }
}

function isTurnedOver(entity: IEntity): boolean {
  const { extrusionDirection, extrusionDirectionZ } = entity as IEntity & {
    readonly extrusionDirection?: { readonly z: number };
    readonly extrusionDirectionZ?: number;
  };
  const z = extrusionDirection?.z ?? extrusionDirectionZ ?? 1;
  return Math.abs(z - 1) > 1e-9;
}

function lineOf({ vertices }: ILineEntity): EntityCurves {
  const [from, to] = vertices;
  if (from === undefined || to === undefined) return 'it has no two ends';
  return { curves: [{ kind: 'line', from: vec(from), to: vec(to) }], closed: false };
}

function circleOf({ center, radius }: ICircleEntity): EntityCurves {
  if (!(radius > 0)) return 'it has no radius';
  const centre = vec(center);
  return {
    curves: [{ kind: 'ellipse', centre, u: [radius, 0], v: [0, radius], from: 0, sweep: FULL }],
    closed: true,
  };
}

/** Angles in radians, counter-clockwise, as the reader gives them. */
function arcOf({ center, radius, startAngle, endAngle }: IArcEntity): EntityCurves {
  if (!(radius > 0)) return 'it has no radius';
  const sweep = turnBetween(startAngle, endAngle);
  return {
    curves: [
      { kind: 'ellipse', centre: vec(center), u: [radius, 0], v: [0, radius], from: startAngle, sweep },
    ],
    closed: sweep === FULL,
  };
}

function turnBetween(from: number, to: number): number {
  const turn = (to - from) % FULL;
  return turn <= 1e-12 ? turn + FULL : turn;
}

function ellipseOf({
  center,
  majorAxisEndPoint,
  axisRatio,
  startAngle,
  endAngle,
}: IEllipseEntity): EntityCurves {
  const [x, y] = vec(majorAxisEndPoint);
  const sweep = turnBetween(startAngle, endAngle);
  return {
    curves: [
      {
        kind: 'ellipse',
        centre: vec(center),
        u: [x, y],
        v: [-y * axisRatio, x * axisRatio],
        from: startAngle,
        sweep,
      },
    ],
    closed: Math.abs(sweep - FULL) < 1e-9,
  };
}

interface PolylineVertex extends Point {
  readonly bulge?: number;
}

function polylineOf(vertices: readonly PolylineVertex[], closed: boolean): EntityCurves {
  const pairs = vertices.map((from, i) => [from, vertices[(i + 1) % vertices.length] ?? from] as const);
  const sides = closed ? pairs : pairs.slice(0, -1);
  const curves = sides.flatMap(([from, to]) => {
    const curve = sideOf(from, to);
    return curve === null ? [] : [curve];
  });
  return { curves, closed };
}

/** Bulge = tan(a quarter of the arc's angle), counter-clockwise positive (published DXF reference). */
function sideOf(from: PolylineVertex, to: PolylineVertex): Curve | null {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  if (dx === 0 && dy === 0) return null;
  const bulge = from.bulge ?? 0;
  if (bulge === 0) return { kind: 'line', from: vec(from), to: vec(to) };
  const off = (1 - bulge * bulge) / (4 * bulge);
  const centre: Vec = [(from.x + to.x) / 2 - dy * off, (from.y + to.y) / 2 + dx * off];
  const radius = Math.hypot(from.x - centre[0], from.y - centre[1]);
  const angle = Math.atan2(from.y - centre[1], from.x - centre[0]);
  return {
    kind: 'ellipse',
    centre,
    u: [radius, 0],
    v: [0, radius],
    from: angle,
    sweep: 4 * Math.atan(bulge),
  };
}

function oldPolylineOf(entity: IPolylineEntity): EntityCurves {
  if (entity.is3dPolygonMesh || entity.isPolyfaceMesh) return 'a mesh has no outline';
  if (entity.includesCurveFitVertices || entity.includesSplineFitVertices) {
    return 'its curve is fitted by the program that drew it; explode it to lines and arcs';
  }
  return polylineOf(entity.vertices, entity.shape);
}

function splineOf(entity: ISplineEntity): EntityCurves {
  if (entity.rational) return 'it is a rational spline; convert it to a plain one or to arcs';
  const points = (entity.controlPoints ?? []).map(vec);
  const curves = splineCurves(entity.degreeOfSplineCurve, entity.knotValues ?? [], points);
  return curves === null ? 'its degree or its knots make no sense' : { curves, closed: entity.closed };
}
