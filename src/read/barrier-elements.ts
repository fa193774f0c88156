/** Which elements of a file are barriers, and of what: their own bodies, or those of their parts. */
import type { BarrierKind, Body } from '../model.js';
import { predefinedType } from './classify.js';
import { noteNoBody, type Source, tryBodies } from './source.js';
import type { Line } from './step-file.js';
import { hasWord, text } from './value.js';

export interface BarrierElement {
  readonly id: number;
  readonly line: Line;
  readonly kind: BarrierKind;
  readonly bodies: readonly Body[];
  /** What it is made of, at every depth, where it has no body of its own. */
  readonly parts: readonly number[];
}

export interface BarrierElements {
  readonly read: readonly BarrierElement[];
  /** Each has a problem that says why. */
  readonly skipped: number;
  /** Without a body of their own, made of elements that are barriers themselves. */
  readonly ofBarriers: number;
  /** Everything that is a barrier, or part of one that has no body of its own. */
  readonly taken: ReadonlySet<number>;
}

const ROOTS = ['IFCWALL', 'IFCSLAB', 'IFCROOF', 'IFCCURTAINWALL'] as const;
const DEEPEST_PARTS = 8;

export function barrierElements(source: Source): BarrierElements {
  const { file, relations } = source;
  const kinds = barrierKinds(source);
  const read: BarrierElement[] = [];
  let [skipped, ofBarriers] = [0, 0];
  for (const [id, kind] of kinds) {
    const line = file.line(id);
    const own = line && tryBodies(source, line, nounOf(kind));
    if (!line || own === undefined) {
      skipped++;
      continue;
    }
    const isBarrier = (part: number) => kinds.has(part);
    const parts = own.length > 0 ? [] : partsBelow(source, id, isBarrier);
    const bodies = own.length > 0 ? own : parts.flatMap((part) => bodiesOfPart(source, part, kind));
    if (bodies.length > 0) read.push({ id, line, kind, bodies, parts });
    // A roof or wall made of slabs or walls has no solid of its own: its parts are the barriers.
    else if ((relations.partsOf.get(id) ?? []).some(isBarrier)) ofBarriers++;
    else {
      noteNoBody(source, line, nounOf(kind));
      skipped++;
    }
  }
  return { read, skipped, ofBarriers, taken: new Set([...kinds.keys(), ...read.flatMap(({ parts }) => parts)]) };
}

function barrierKinds(source: Source): Map<number, BarrierKind> {
  const { file } = source;
  const kinds = new Map<number, BarrierKind>();
  for (const id of ROOTS.flatMap((root) => file.ids(root, true))) kinds.set(id, kindByEntity(source, id));
  for (const [id, kind] of named(source)) kinds.set(id, kind);
  for (const id of file.ids('IFCELEMENTASSEMBLY', true)) {
    const kind = kindOfAssembly(source, id);
    if (kind && !kinds.has(id)) kinds.set(id, kind);
  }
  for (const id of ratedPanels(source, kinds)) kinds.set(id, 'wall');
  return kinds;
}

function kindByEntity(source: Source, id: number): BarrierKind {
  const entity = source.file.entity(id);
  if (entity.startsWith('IFCWALL') || entity.startsWith('IFCCURTAINWALL')) return 'wall';
  const whole = source.file.entity(source.relations.wholeOf.get(id) ?? 0);
  const type = predefinedType(source, id, source.file.line(id)!);
  return entity === 'IFCROOF' || whole === 'IFCROOF' || type === 'ROOF' ? 'roof' : 'floor';
}

/** What the brief names: ceilings, bulkheads, proxies, or walls and slabs that are something else than they say. */
function named(source: Source): Map<number, BarrierKind> {
  const { file, relations, facts } = source;
  const words = facts?.barriers ?? [];
  const found = new Map<number, BarrierKind>();
  if (words.length === 0) return found;
  const not = new Set([...file.ids('IFCFEATUREELEMENT', true), ...file.ids('IFCDISTRIBUTIONELEMENT', true)]);
  for (const id of file.ids('IFCELEMENT', true)) {
    if (not.has(id)) continue;
    const line = file.line(id);
    const type = file.line(relations.typeOf.get(id) ?? 0);
    const names = [line?.Name, line?.ObjectType, type?.Name].map(text).filter((n) => n !== undefined);
    const match = words.find((entry) => names.some((name) => hasWord(name, entry.words)));
    if (match) found.set(id, match.kind);
  }
  // The parts of what is named are not barriers again because they have its name.
  for (const id of found.keys()) if (isPartOf(source, id, found)) found.delete(id);
  return found;
}

function isPartOf({ relations }: Source, id: number, wholes: ReadonlyMap<number, unknown>): boolean {
  let at = relations.wholeOf.get(id);
  for (let step = 0; at !== undefined && step < DEEPEST_PARTS; step++) {
    if (wholes.has(at)) return true;
    at = relations.wholeOf.get(at);
  }
  return false;
}

const SETS: readonly (readonly [RegExp, BarrierKind])[] = [
  [/^Pset_(Curtain)?WallCommon$/, 'wall'],
  [/^Pset_SlabCommon$/, 'floor'],
  [/^Pset_RoofCommon$/, 'roof'],
];

/** An assembly that carries the property set of a wall, slab or roof is one, whatever it is put together from. */
function kindOfAssembly(source: Source, id: number): BarrierKind | undefined {
  const sets = source.properties.all(id).map((p) => p.set);
  return SETS.find(([set]) => sets.some((name) => set.test(name)))?.[1];
}

/** Panels of a curtain wall that state a rating of their own are barriers of their own. */
function ratedPanels(source: Source, kinds: ReadonlyMap<number, BarrierKind>): number[] {
  const { file, relations, properties } = source;
  return file.ids('IFCPLATE', true).filter((id) => {
    const whole = relations.wholeOf.get(id);
    if (whole === undefined || kinds.get(whole) !== 'wall' || kinds.has(id)) return false;
    return (text(properties.find(id, /^Pset_\w+Common$/, 'FireRating')?.value) ?? '').trim() !== '';
  });
}

function partsBelow(source: Source, id: number, isBarrier: (part: number) => boolean, depth = 0): number[] {
  if (depth > DEEPEST_PARTS) return [];
  const parts = (source.relations.partsOf.get(id) ?? []).filter((part) => !isBarrier(part));
  return parts.flatMap((part) => [part, ...partsBelow(source, part, isBarrier, depth + 1)]);
}

function bodiesOfPart(source: Source, part: number, kind: BarrierKind): Body[] {
  const line = source.file.line(part);
  return line ? (tryBodies(source, line, `Part of a ${kind}`) ?? []) : [];
}

export const nounOf = (kind: BarrierKind): string => ({ wall: 'Wall', floor: 'Floor', roof: 'Roof' })[kind];
