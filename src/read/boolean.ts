/**
 * Booleans and the solids of constructive geometry. What is joined is read part by part, what a plane cuts off is cut off
 * here, so that profiles stay exact; solids cut from solids are web-ifc's, where it draws all their parts right.
 */
import { type Affine, applyDirection, applyPoint } from '../geometry/frame.js';
import { cutOff, standsWithin } from '../geometry/half-space.js';
import { movedPrism } from '../geometry/mesh.js';
import { circle, rectangle } from '../geometry/polygon.js';
import { cross, negate, scale, unit } from '../geometry/vector.js';
import type { Body, Frame, Polygon, Vec2, Vec3 } from '../model.js';
import { type CurveContext, outlineOf } from './curves.js';
import { drawnWrong } from './drawn-wrong.js';
import type { Line } from './step-file.js';
import { UnreadableGeometry } from './unreadable.js';
import { bool, num, ref, text } from './value.js';

const BOOLEANS = new Set(['IFCBOOLEANRESULT', 'IFCBOOLEANCLIPPINGRESULT']);

/** Bodies of a boolean, or of a tree of them; undefined where the item is none, or is left to web-ifc. */
export function booleanBodies(
  context: CurveContext,
  id: number,
  placed: Affine,
  read: (operand: number) => Body[],
): Body[] | undefined {
  const { file } = context;
  const entity = file.entity(id);
  const line = file.line(id);
  if (entity === 'IFCCSGSOLID') return read(ref(line?.TreeRootExpression) ?? 0);
  if (!BOOLEANS.has(entity) || !line) return undefined;
  const [first, second] = [ref(line.FirstOperand) ?? 0, ref(line.SecondOperand) ?? 0];
  const operator = text(line.Operator);
  if (operator === 'UNION') return [...read(first), ...read(second)];
  const space = halfSpace(context, second, placed);
  if (operator === 'DIFFERENCE' && space) {
    const bodies = read(first);
    if (bodies.every(space.holds)) {
      const left = bodies.map((body) => cutOff(body, space.at, space.normal)).filter((body) => body !== undefined);
      if (left.length === 0) throw new UnreadableGeometry('its body is cut away altogether');
      return left;
    }
  }
  const wrong = drawnWrong(context, id);
  if (wrong) throw new UnreadableGeometry(`it is cut from or with ${wrong}, which can not be done exactly`);
  return undefined;
}

interface HalfSpace {
  readonly at: Vec3;
  /** Out of what is kept when the half-space is taken away. */
  readonly normal: Vec3;
  /** Whether the half-space reaches over all of a body, as one without a boundary does. */
  readonly holds: (body: Body) => boolean;
}

function halfSpace({ placements, ...context }: CurveContext, id: number, placed: Affine): HalfSpace | undefined {
  const { file } = context;
  const entity = file.entity(id);
  if (!/^IFC(POLYGONALBOUNDED|BOXED|)HALFSPACE(SOLID)?$/.test(entity)) return undefined;
  const line = file.line(id);
  const surface = file.line(ref(line?.BaseSurface) ?? 0);
  if (!line || !surface || file.entity(ref(line.BaseSurface)!) !== 'IFCPLANE') return undefined;
  const plane = placements.axis3(ref(surface.Position));
  // A mapping may mirror, so the normal is carried by two directions in the plane, its side by the normal itself.
  const inPlane = cross(applyDirection(placed, plane.x), applyDirection(placed, plane.y));
  const side = applyDirection(placed, plane.z);
  const normal = unit(
    inPlane[0] * side[0] + inPlane[1] * side[1] + inPlane[2] * side[2] < 0 ? negate(inPlane) : inPlane,
  );
  const at = applyPoint(placed, plane.origin);
  // AgreementFlag true: the solid lies on the side the normal points away from.
  const agrees = bool(line.AgreementFlag) !== false;
  const space = { at, normal: agrees ? negate(normal) : normal };
  if (!entity.includes('POLYGONAL')) return { ...space, holds: () => true };
  const boundary = outlineOf({ placements, ...context }, ref(line.PolygonalBoundary));
  const base = placedFrame(placements.axis3(ref(line.Position)), placed);
  if (!boundary || !base) return undefined;
  const outline: Polygon = boundary.map(([x, y]): Vec2 => [x * base.scaleX, y * base.scaleY]);
  return { ...space, holds: (body) => standsWithin(body, base.frame, outline) };
}

function placedFrame(at: Affine, placed: Affine): { frame: Frame; scaleX: number; scaleY: number } | undefined {
  const unitSquare = rectangle(2, 2);
  const prism = movedPrism({ kind: 'prism', frame: at, outline: unitSquare, voids: [], sweep: at.z }, placed);
  const corner = prism?.outline[2];
  return prism && corner && { frame: prism.frame, scaleX: corner[0], scaleY: corner[1] };
}

/** Blocks and cylinders, which are prisms; cones, spheres and pyramids are left to web-ifc. */
export function primitiveBody(
  { placements, mm }: CurveContext,
  line: Line,
  entity: string,
  placed: Affine,
): Body[] | undefined {
  const size = (x: unknown) => (num(x) ?? Number.NaN) * mm;
  const at = placements.axis3(ref(line.Position));
  const prism = (outline: Polygon, height: number): Body[] | undefined => {
    const moved = movedPrism({ kind: 'prism', frame: at, outline, voids: [], sweep: scale(at.z, height) }, placed);
    return moved && [moved];
  };
  if (entity === 'IFCBLOCK') {
    const [x, y] = [size(line.XLength), size(line.YLength)];
    return prism(
      rectangle(x, y).map(([u, v]): Vec2 => [u + x / 2, v + y / 2]),
      size(line.ZLength),
    );
  }
  if (entity === 'IFCRIGHTCIRCULARCYLINDER') return prism(circle(2 * size(line.Radius)), size(line.Height));
  return undefined;
}
