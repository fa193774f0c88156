/** Walls, floors and roofs with their gross bodies, openings and ratings. */
import { parseRating } from '../fire-rating/parse.js';
import type { Barrier, BarrierKind, Body, Opening, Rating } from '../model.js';
import { predefinedType } from './classify.js';
import { constructionOf } from './construction.js';
import { readLayers, singleMaterial } from './materials.js';
import { noteNoBody, type ReadElement, readElement, type Source, tryBodies } from './source.js';
import type { Line } from './step-file.js';
import { bool, label, text } from './value.js';

const ROOTS = ['IFCWALL', 'IFCSLAB', 'IFCROOF', 'IFCCURTAINWALL'] as const;

export function readBarriers(source: Source, model: string): { barriers: Barrier[]; skipped: number } {
  const { file, relations } = source;
  const ids = new Set(ROOTS.flatMap((root) => file.ids(root, true)));
  const barriers: Barrier[] = [];
  let skipped = 0;
  for (const id of ids) {
    const line = file.line(id);
    if (!line) continue;
    const kind = kindOf(source, id, line);
    const own = tryBodies(source, line, nounOf(kind));
    if (own === undefined) {
      skipped++;
      continue;
    }
    const parts = relations.partsOf.get(id) ?? [];
    const bodies = own.length > 0 ? own : partBodies(source, parts, ids, kind);
    if (bodies.length > 0) barriers.push(readBarrier(source, id, line, model, kind, bodies));
    // A roof or wall made of slabs or walls has no solid of its own: its parts are the barriers.
    else if (!parts.some((part) => ids.has(part))) {
      noteNoBody(source, line, nounOf(kind));
      skipped++;
    }
  }
  return { barriers, skipped };
}

function partBodies(
  source: Source,
  parts: readonly number[],
  barriers: ReadonlySet<number>,
  kind: BarrierKind,
): Body[] {
  return parts
    .filter((part) => !barriers.has(part))
    .flatMap((part) => {
      const line = source.file.line(part);
      const own = line ? (tryBodies(source, line, `Part of a ${kind}`) ?? []) : [];
      return own.length > 0 ? own : partBodies(source, source.relations.partsOf.get(part) ?? [], barriers, kind);
    });
}

function readBarrier(
  source: Source,
  id: number,
  line: Line,
  model: string,
  kind: BarrierKind,
  bodies: Body[],
): Barrier {
  const whole = source.relations.wholeOf.get(id);
  const holders =
    whole !== undefined && /^IFC(WALL|SLAB|ROOF|CURTAINWALL)/.test(source.file.entity(whole)) ? [id, whole] : [id];
  const compartmentation = holders
    .map((holder) => bool(source.properties.find(holder, /^Pset_\w+Common$/, 'Compartmentation')?.value))
    .find((value) => value !== undefined);
  const element = readElement(source, id, line);
  const layers = readLayers(source, id);
  const typeName = text(source.file.line(source.relations.typeOf.get(id) ?? 0)?.Name) ?? '';
  return {
    ...element,
    model,
    bodies,
    kind,
    openings: holders.flatMap((holder) => readOpenings(source, holder, model)),
    rating: withBriefRating(source, element, readRating(source, holders, compartmentation)),
    compartmentation,
    layers,
    construction: constructionOf(layers, [element.name, typeName], source.facts?.constructions),
  };
}

function kindOf(source: Source, id: number, line: Line): BarrierKind {
  const entity = source.file.entity(id);
  if (entity.startsWith('IFCWALL') || entity.startsWith('IFCCURTAINWALL')) return 'wall';
  const whole = source.file.entity(source.relations.wholeOf.get(id) ?? 0);
  const isRoof = entity === 'IFCROOF' || whole === 'IFCROOF' || predefinedType(source, id, line) === 'ROOF';
  return isRoof ? 'roof' : 'floor';
}

const nounOf = (kind: BarrierKind): string => ({ wall: 'Wall', floor: 'Floor', roof: 'Roof' })[kind];

function readOpenings(source: Source, host: number, model: string): Opening[] {
  const { file, relations } = source;
  return (relations.openingsOf.get(host) ?? []).flatMap((id) => {
    const line = file.line(id);
    if (!line) return [];
    const bodies = tryBodies(source, line, 'Opening');
    if (bodies === undefined) return [];
    if (bodies.length === 0) noteNoBody(source, line, 'Opening');
    const filledBy = (relations.fillingsOf.get(id) ?? []).map((filling) => text(file.line(filling)?.GlobalId) ?? '');
    return [{ ...readElement(source, id, line), model, bodies, filledBy }];
  });
}

/** Places where a barrier's rating may stand: its own set first, then the second place that IFC2X3 has. */
const RATING_PLACES: readonly (readonly [RegExp, string])[] = [
  [/^Pset_\w+Common$/, 'FireRating'],
  [/^Pset_FireRatingProperties$/, 'FireResistanceRating'],
];

/** Occurrence before type before material; what states nothing (an empty label) does not count as stating. */
function readRating(source: Source, holders: readonly number[], compartmentation: boolean | undefined): Rating {
  const loadBearing = bool(source.properties.find(holders[0]!, /^Pset_\w+Common$/, 'LoadBearing')?.value);
  const stated = holders
    .flatMap((id) => source.properties.all(id))
    .filter(
      (p) =>
        RATING_PLACES.some(([set, name]) => set.test(p.set) && p.name === name) ||
        source.facts?.ratingProperties.some(({ set, property }) => p.set === set && p.name === property),
    )
    .filter((p) => (label(p.value) ?? '').trim() !== '')
    .sort((a, b) => (a.from === b.from ? 0 : a.from === 'occurrence' ? -1 : 1))[0];
  const found = stated
    ? { text: label(stated.value), from: stated.from }
    : { text: materialRating(source, holders[0]!), from: 'material' as const };
  const { flags: _, ...rating } = parseRating(found.text, {
    object: 'barrier',
    ...(loadBearing === undefined ? {} : { loadBearing }),
  });
  if (rating.state !== 'unstated') return { ...rating, from: found.from };
  const none = { ...rating, from: null };
  return compartmentation === false ? { ...none, state: 'notRequired' } : none;
}

/** A drawing's rating stands in where the model states none that can be read; where both do, the model's is kept. */
function withBriefRating(source: Source, { globalId, name }: ReadElement, stated: Rating): Rating {
  const given = source.facts?.ratings.find(({ barrier }) => barrier === globalId || barrier === name);
  if (!given) return stated;
  const { flags: _, ...rating } = parseRating(given.rating, { object: 'barrier' });
  const isKnown = stated.state === 'stated' || stated.state === 'durationOnly';
  if (isKnown && stated.text !== given.rating)
    source.problems.push({
      code: 'rating-disagrees',
      globalId,
      message: `"${name}" is rated "${stated.text}" in the model but "${given.rating}" in drawing ${given.drawing} ${given.revision}; the model's rating was used.`,
    });
  return isKnown ? stated : { ...rating, from: 'brief' };
}

function materialRating(source: Source, id: number): string | undefined {
  const material = singleMaterial(source, id);
  return material === undefined ? undefined : source.materialRatings().get(material);
}
