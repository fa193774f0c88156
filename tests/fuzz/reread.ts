/**
 * What a file says of a duct, a barrier and an opening, read again from its text by nothing of the program. Only what our
 * own writer makes is followed: rectangles extruded, placed one on another. For everything else the answer is undefined.
 */
import { type Attribute, type Instance, isRef, type StepText } from './step-text.js';

type V = readonly [number, number, number];
interface Placed {
  readonly origin: V;
  readonly x: V;
  readonly y: V;
  readonly z: V;
}

/** A rectangle that is swept along z of its frame, mm. */
export interface Box {
  readonly at: Placed;
  readonly width: number;
  readonly height: number;
  readonly depth: number;
}

const WORLD: Placed = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };
export const dot = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const sum = (a: V, b: V, by: number): V => [a[0] + b[0] * by, a[1] + b[1] * by, a[2] + b[2] * by];
const cross = (a: V, b: V): V => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const unit = (a: V): V | undefined => {
  const length = Math.hypot(...a);
  return length > 0 && Number.isFinite(length) ? sum([0, 0, 0], a, 1 / length) : undefined;
};
const turned = (p: Placed, v: V): V => sum(sum(sum([0, 0, 0], p.x, v[0]), p.y, v[1]), p.z, v[2]);
export const pointIn = (p: Placed, v: V): V => sum(p.origin, turned(p, v), 1);

const numbers = (x: Attribute | undefined): number[] =>
  Array.isArray(x) ? (x as readonly Attribute[]).filter((v) => typeof v === 'number') : [];
const amount = (x: Attribute | undefined): number | undefined =>
  typeof x === 'number' && Number.isFinite(x) ? x : undefined;

/** Millimetres per unit; undefined where that is not plain. */
export function millimetres(step: StepText): number | undefined {
  const units = step.all('IFCSIUNIT').filter(({ attributes }) => nameOf(attributes[1]) === 'LENGTHUNIT');
  const [only] = units;
  if (
    units.length !== 1 ||
    !only ||
    step.all('IFCUNITASSIGNMENT').length !== 1 ||
    nameOf(only.attributes[3]) !== 'METRE'
  )
    return undefined;
  if (!step.reach(step.all('IFCUNITASSIGNMENT')[0]!.id).has(only.id)) return undefined;
  return only.attributes[2] === null ? 1000 : nameOf(only.attributes[2]) === 'MILLI' ? 1 : undefined;
}

export const nameOf = (x: Attribute | undefined): string | undefined =>
  typeof x === 'object' && x !== null && 'name' in x ? x.name : undefined;

function point(step: StepText, x: Attribute | undefined): V | undefined {
  const at = step.at(x);
  const [a, b, c = 0] = numbers(at?.attributes[0]);
  return at?.entity === 'IFCCARTESIANPOINT' && a !== undefined && b !== undefined ? [a, b, c] : undefined;
}

function direction(step: StepText, x: Attribute | undefined): V | undefined {
  const at = step.at(x);
  const [a, b, c = 0] = numbers(at?.attributes[0]);
  return at?.entity === 'IFCDIRECTION' && a !== undefined && b !== undefined ? unit([a, b, c]) : undefined;
}

function axes(step: StepText, x: Attribute | undefined): Placed | undefined {
  const at = step.at(x);
  const origin = point(step, at?.attributes[0]);
  if (!at || !origin) return undefined;
  if (at.entity === 'IFCAXIS2PLACEMENT2D') {
    const along = at.attributes[1] === null ? WORLD.x : direction(step, at.attributes[1]);
    return along && { origin, x: along, y: [-along[1], along[0], 0], z: WORLD.z };
  }
  const z = at.attributes[1] === null ? WORLD.z : direction(step, at.attributes[1]);
  const hint = at.attributes[2] === null ? WORLD.x : direction(step, at.attributes[2]);
  const along = z && hint && unit(sum(hint, z, -dot(hint, z)));
  return at.entity === 'IFCAXIS2PLACEMENT3D' && z && along ? { origin, x: along, y: cross(z, along), z } : undefined;
}

const within = (outer: Placed, inner: Placed): Placed => ({
  origin: pointIn(outer, inner.origin),
  x: turned(outer, inner.x),
  y: turned(outer, inner.y),
  z: turned(outer, inner.z),
});

function placement(step: StepText, x: Attribute | undefined, depth = 0): Placed | undefined {
  if (x === null) return WORLD;
  const at = step.at(x);
  if (at?.entity !== 'IFCLOCALPLACEMENT' || depth > 20) return undefined;
  const [outer, own] = [placement(step, at.attributes[0], depth + 1), axes(step, at.attributes[1])];
  return outer && own && within(outer, own);
}

/** Where the file's own coordinates lie; undefined where it does not say it once. */
function world(step: StepText): Placed | undefined {
  const [context, ...others] = step.all('IFCGEOMETRICREPRESENTATIONCONTEXT');
  return context && others.length === 0 ? axes(step, context.attributes[4]) : undefined;
}

/** Of a product with one extruded rectangle for a body. */
export function boxOf(step: StepText, product: Instance | undefined): Box | undefined {
  const mm = millimetres(step);
  const shape = step.at(product?.attributes[6]);
  const representations = items(shape?.attributes[2]).map((ref) => step.at(ref));
  const body = representations.filter((one) => one?.attributes[1] === 'Body');
  const solids = items(body[0]?.attributes[3]).map((ref) => step.at(ref));
  const [solid] = solids;
  if (!product || mm === undefined || body.length !== 1 || solids.length !== 1) return undefined;
  if (solid?.entity !== 'IFCEXTRUDEDAREASOLID') return undefined;
  const profile = step.at(solid.attributes[0]);
  if (profile?.entity !== 'IFCRECTANGLEPROFILEDEF') return undefined;
  const [outer, placed] = [world(step), placement(step, product.attributes[5])];
  const [own, flat] = [axes(step, solid.attributes[1]), axes(step, profile.attributes[2])];
  const along = direction(step, solid.attributes[2]);
  const [width, height, depth] = [profile.attributes[3], profile.attributes[4], solid.attributes[3]].map(amount);
  if (!outer || !placed || !own || !flat || !along || Math.abs(along[2] - 1) > 1e-6) return undefined;
  if (!(width! > 0 && height! > 0 && depth! > 0)) return undefined;
  const at = within(within(within(outer, placed), own), flat);
  return {
    at: { ...at, origin: sum([0, 0, 0], at.origin, mm) },
    ...{ width: width! * mm, height: height! * mm, depth: depth! * mm },
  };
}

/** The direction in which a slab or a wall is passed, and its thickness. */
export function throughOf({ at, width, height, depth }: Box): { readonly way: V; readonly thickness: number } {
  const thickness = Math.min(width, height, depth);
  return { way: thickness === depth ? at.z : thickness === height ? at.y : at.x, thickness };
}

/** The sides of a box that passes a barrier: all but the one that lies most along the way, whatever it was swept along. */
export function sidesAcross({ at, width, height, depth }: Box, way: V): readonly [number, number] {
  const [x, y, z] = [at.x, at.y, at.z].map((own) => Math.abs(dot(own, way))) as [number, number, number];
  if (z >= x && z >= y) return [width, height];
  return x > y ? [height, depth] : [width, depth];
}

const items = (x: Attribute | undefined): Attribute[] => (Array.isArray(x) ? [...(x as readonly Attribute[])] : []);

/** Least and most of a box along a direction. */
export function spanOf({ at, width, height, depth }: Box, along: V): readonly [number, number] {
  const corners = [-1, 1].flatMap((u) =>
    [-1, 1].flatMap((v) => [0, depth].map((w) => dot(pointIn(at, [(u * width) / 2, (v * height) / 2, w]), along))),
  );
  return [Math.min(...corners), Math.max(...corners)];
}

/** Texts of all properties `FireRating` of a product and of its type. */
export function ratingsOf(step: StepText, product: Instance): string[] {
  const names = (list: Attribute | undefined, id: number) => items(list).some((x) => isRef(x) && x.ref === id);
  const own = step.all('IFCRELDEFINESBYPROPERTIES').filter(({ attributes }) => names(attributes[4], product.id));
  const types = step.all('IFCRELDEFINESBYTYPE').filter(({ attributes }) => names(attributes[4], product.id));
  const sets = [
    ...own.map(({ attributes }) => step.at(attributes[5])),
    ...types.flatMap(({ attributes }) => items(step.at(attributes[5])?.attributes[5]).map((set) => step.at(set))),
  ];
  return sets.flatMap((set) =>
    items(set?.attributes[4]).flatMap((ref) => {
      const property = step.at(ref);
      const value = property?.attributes[2];
      const isText = typeof value === 'object' && value !== null && 'type' in value && typeof value.value === 'string';
      return property?.attributes[0] === 'FireRating' && isText ? [value.value as string] : [];
    }),
  );
}

export const hasMaterial = (step: StepText, product: Instance): boolean =>
  step
    .all('IFCRELASSOCIATESMATERIAL')
    .some(
      ({ attributes }) =>
        items(attributes[4]).some((x) => isRef(x) && x.ref === product.id) && step.at(attributes[5]) !== undefined,
    );

/** Openings that void a product; undefined where it can't be told which instance is meant. */
export const openingsOf = (step: StepText, product: Instance): (Instance | undefined)[] =>
  step
    .all('IFCRELVOIDSELEMENT')
    .filter(({ attributes }) => isRef(attributes[4]) && attributes[4].ref === product.id)
    .map(({ attributes }) => step.at(attributes[5]));
