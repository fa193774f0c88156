/** What a barrier states of its fire rating, and what the project's drawings say of it. */
import { parseRating, type RatingContext } from '../fire-rating/index.js';
import type { DrawingRating, Rating } from '../model.js';
import { singleMaterial } from './materials.js';
import type { ReadElement, Source } from './source.js';
import { bool, label } from './value.js';

/** Places where a barrier's rating may stand: its own set first, then the second place that IFC2X3 has. */
const RATING_PLACES: readonly (readonly [RegExp, string])[] = [
  [/^Pset_\w+Common$/, 'FireRating'],
  [/^Pset_FireRatingProperties$/, 'FireResistanceRating'],
];

/**
 * Occurrence before type before material; what states nothing (an empty label) does not count as stating.
 * @param holders the barrier itself, then the whole that it is part of
 */
export function readRating(source: Source, holders: readonly number[], compartmentation: boolean | undefined): Rating {
  const loadBearing = bool(source.properties.find(holders[0]!, /^Pset_\w+Common$/, 'LoadBearing')?.value);
  const rating = statedRating(source, holders, {
    object: 'barrier',
    ...(loadBearing === undefined ? {} : { loadBearing }),
  });
  return rating.state === 'unstated' && compartmentation === false ? { ...rating, state: 'notRequired' } : rating;
}

/** What stands in the places where ratings are stated. */
export function statedRating(source: Source, holders: readonly number[], context: RatingContext): Rating {
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
  const { flags: _, ...rating } = source.rating(found.text, context);
  return { ...rating, from: rating.state === 'unstated' ? null : found.from };
}

function materialRating(source: Source, id: number): string | undefined {
  const material = singleMaterial(source, id);
  return material === undefined ? undefined : source.materialRatings().get(material);
}

/** What the brief's table of drawings says of a barrier, by its name or GlobalId. */
export function drawingRating({ facts }: Source, { globalId, name }: ReadElement): DrawingRating | undefined {
  const given = facts?.ratings.find(({ barrier }) => barrier === globalId || barrier === name);
  if (!given) return undefined;
  const { flags: _, ...rating } = parseRating(given.rating, { object: 'barrier' });
  return { rating: { ...rating, from: 'brief' }, drawing: given.drawing, revision: given.revision };
}

/** A drawing's rating stands in where the model states none that can be read; where both do, the model's is kept. */
export function withDrawing(
  source: Source,
  { globalId, name }: ReadElement,
  stated: Rating,
  given: DrawingRating | undefined,
): Rating {
  if (!given) return stated;
  const isKnown = stated.state === 'stated' || stated.state === 'durationOnly';
  if (isKnown && stated.text !== given.rating.text)
    source.problems.push({
      code: 'rating-disagrees',
      globalId,
      message: `"${name}" is rated "${stated.text}" in the model but "${given.rating.text}" in drawing ${given.drawing} ${given.revision}; the model's rating was used.`,
    });
  return isKnown ? stated : given.rating;
}
