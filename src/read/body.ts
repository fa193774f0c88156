/**
 * Bodies of products: swept solids from their own profiles and curves, what is cut off them or joined to them from those,
 * everything else as web-ifc's mesh of the single representation item. Openings are never cut here.
 */
import { boxOf } from '../geometry/box.js';
import { type Affine, applyPoint, compose } from '../geometry/frame.js';
import { isFiniteMesh, isFlat, movedMesh, weldedMesh } from '../geometry/mesh.js';
import { negate, scale, sub } from '../geometry/vector.js';
import type { Body } from '../model.js';
import { booleanBodies, primitiveBody } from './boolean.js';
import type { CurveContext } from './curves.js';
import { drawnWrong } from './drawn-wrong.js';
import { LARGEST_ELEMENT, MOST_ITEMS, MOST_TRIANGLES } from './limits.js';
import { isOfMachine } from './stoppers.js';
import { sweptBodies } from './swept.js';
import { tubeBodies } from './tubes.js';
import { UnreadableGeometry } from './unreadable.js';
import { ref, refs, text } from './value.js';

/** Representations that show something else than the product's own solid. */
const NOT_THE_BODY = new Set([
  'Axis',
  'FootPrint',
  'Box',
  'Clearance',
  'Annotation',
  'Profile',
  'Plan',
  'Survey',
  'CoG',
]);
const SOLID_TYPES = new Set([
  'SweptSolid',
  'AdvancedSweptSolid',
  'Brep',
  'AdvancedBrep',
  'CSG',
  'Clipping',
  'SolidModel',
  'SurfaceModel',
  'Tessellation',
  'MappedRepresentation',
  'Surface3D',
]);
/** Deepest nesting of mapped items and booleans that is followed: real files clip a wall some dozens of times. */
const DEEPEST = 500;

/** All solids of the product's body, placed, millimetres; empty where the product has no body at all. */
export function readBodies(context: CurveContext, product: { readonly [attribute: string]: unknown }): Body[] {
  const { file, placements } = context;
  const placed = placements.object(ref(product.ObjectPlacement));
  const shape = file.line(ref(product.Representation) ?? 0);
  const representations = refs(shape?.Representations).map((id) => file.line(id));
  const body =
    representations.find((r) => text(r?.RepresentationIdentifier) === 'Body') ??
    representations.find((r) => text(r?.RepresentationIdentifier) === 'Facetation') ??
    representations.find(
      (r) =>
        !NOT_THE_BODY.has(text(r?.RepresentationIdentifier) ?? '') &&
        SOLID_TYPES.has(text(r?.RepresentationType) ?? ''),
    );
  if (!body) return [];
  const items = refs(body.Items);
  const budget = { items: MOST_ITEMS };
  const bodies = items.flatMap((item) => itemBodies(context, item, placed, [], budget));
  if (bodies.length === 0 && items.some((item) => !CURVES.has(file.entity(item))))
    throw new UnreadableGeometry('its body is flat: it encloses no room', 'no-thickness');
  const { min, max } = boxOf(bodies);
  const largest = Math.max(...sub(max, min));
  if (largest > LARGEST_ELEMENT)
    throw new UnreadableGeometry(`it is ${(largest / 1e6).toFixed(1)} km large: look at the file's unit of length`);
  return bodies;
}

/**
 * @param within the items that this one is part of
 * @param budget of the element: mappings of mappings can repeat an item without end
 */
function itemBodies(
  context: CurveContext,
  id: number,
  placed: Affine,
  within: readonly number[],
  budget: { items: number },
): Body[] {
  const { file, placements } = context;
  const entity = file.entity(id);
  if (within.includes(id)) throw new UnreadableGeometry(`its item #${id} refers to itself`);
  if (within.length > DEEPEST) throw new UnreadableGeometry(`its item #${id} is nested too deep`);
  if (budget.items-- === 0) throw new UnreadableGeometry(`it has more than ${MOST_ITEMS} items`);
  const path = [...within, id];
  if (entity === 'IFCMAPPEDITEM') {
    const item = file.line(id);
    const source = file.line(ref(item?.MappingSource) ?? 0);
    const mapped = file.line(ref(source?.MappedRepresentation) ?? 0);
    const target = placements.operator(ref(item?.MappingTarget));
    const at = compose(placed, compose(target, inverseOfOrigin(placements.axis3(ref(source?.MappingOrigin)))));
    return refs(mapped?.Items).flatMap((inner) => itemBodies(context, inner, at, path, budget));
  }
  const line = file.line(id);
  if (!line) throw new UnreadableGeometry(`its item #${id} is missing or can not be read`);
  return (
    sweptBodies(context, line, entity, placed) ??
    tubeBodies(context, line, entity, placed) ??
    primitiveBody(context, line, entity, placed) ??
    booleanBodies(context, id, placed, (operand) => itemBodies(context, operand, placed, path, budget)) ??
    meshBody(context, id, entity, placed)
  );
}

const CURVES = new Set([
  'IFCPOLYLINE',
  'IFCINDEXEDPOLYCURVE',
  'IFCCOMPOSITECURVE',
  'IFCTRIMMEDCURVE',
  'IFCCIRCLE',
  'IFCGEOMETRICCURVESET',
  'IFCGEOMETRICSET',
  'IFCBOUNDINGBOX',
  'IFCANNOTATIONFILLAREA',
  'IFCTEXTLITERAL',
  'IFCLINE',
]);

function meshBody(context: CurveContext, id: number, entity: string, placed: Affine): Body[] {
  const { file, mm } = context;
  if (CURVES.has(entity)) return [];
  const wrong = drawnWrong(context, id);
  if (wrong) throw new UnreadableGeometry(`its ${nice(entity)} has ${wrong}, of a kind that is not read`);
  const raw = drawn(file, id, entity);
  if (raw.triangles.length === 0) throw new UnreadableGeometry(`its ${nice(entity)} gives no surface`);
  const triangles = raw.triangles.length / 3;
  if (triangles > MOST_TRIANGLES)
    throw new UnreadableGeometry(`its ${nice(entity)} has ${triangles} triangles, more than ${MOST_TRIANGLES}`);
  if (!isFiniteMesh(raw)) throw new UnreadableGeometry(`its ${nice(entity)} has coordinates that are no numbers`);
  const toMm: Affine = {
    origin: placed.origin,
    x: scale(placed.x, mm),
    y: scale(placed.y, mm),
    z: scale(placed.z, mm),
  };
  const mesh = weldedMesh(movedMesh(raw, toMm));
  return isFlat(mesh) ? [] : [mesh];
}

/** One item that can't be drawn makes one element unreadable; a fault that kills web-ifc's memory ends the reader. */
function drawn(file: CurveContext['file'], id: number, entity: string) {
  try {
    return file.mesh(id);
  } catch (error) {
    if (isOfMachine(error)) throw error;
    throw new UnreadableGeometry(`its ${nice(entity)} can not be drawn`);
  }
}

/** Placements are rigid, so the inverse is the transpose. */
function inverseOfOrigin(a: Affine): Affine {
  const t: Affine = {
    origin: [0, 0, 0],
    x: [a.x[0], a.y[0], a.z[0]],
    y: [a.x[1], a.y[1], a.z[1]],
    z: [a.x[2], a.y[2], a.z[2]],
  };
  return { ...t, origin: applyPoint(t, negate(a.origin)) };
}

/** As the file writes it. */
const nice = (entity: string): string => entity || 'missing item';
