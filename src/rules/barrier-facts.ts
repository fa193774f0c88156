import type { AroundKind, BarrierFacts, HeadFacts, Penetration, Rating } from '../model.js';
import { AROUND_REACH } from '../tolerances.js';

/** Facts of barriers that compare one thing that is known with another; null where either is not. */

export const layersDifference = ({ layersThickness, drawnThickness }: BarrierFacts): number | null =>
  layersThickness === null || drawnThickness === null ? null : Math.abs(layersThickness - drawnThickness);

/** Nothing where the drawing is all that is known: it can't disagree with itself. */
export function drawingFacts({ drawing, rating }: BarrierFacts) {
  if (!drawing || rating.from === 'brief') return { given: false };
  const { text } = drawing.rating;
  return { given: true, name: `${drawing.drawing} ${drawing.revision}`, text, agrees: agree(rating, drawing.rating) };
}

/** Criterion by criterion; a bare duration names none, so it can contradict a rating but not confirm it. */
function agree(a: Rating, b: Rating): boolean | null {
  if (a.text === b.text) return true;
  if (a.state === 'durationOnly' && b.state === 'durationOnly') return a.duration === b.duration;
  if (a.state === 'durationOnly' || b.state === 'durationOnly') {
    const [bare, full] = a.state === 'durationOnly' ? [a, b] : [b, a];
    const minutes = [full.integrity, full.insulation].filter((m) => typeof m === 'number');
    return minutes.length > 0 && minutes.every((m) => m !== bare.duration) ? false : null;
  }
  if (a.state !== 'stated' || b.state !== 'stated') return null;
  const pairs = (['integrity', 'insulation'] as const).map((criterion) => [a[criterion], b[criterion]] as const);
  if (pairs.some(([x, y]) => x !== null && y !== null && x !== y)) return false;
  return pairs.some(([x, y]) => x === null || y === null) ? null : true;
}

/** @param underGap tags of the barrier's penetrations over which it stops short */
export function headFacts(head: HeadFacts | null, underGap: readonly string[]) {
  if (!head) return { measured: false };
  const { gap, length, passing, extendToStructure } = head;
  const stated = {
    measured: true,
    extendToStructureGiven: extendToStructure !== null,
    extendToStructure: extendToStructure === null ? null : extendToStructure ? 'TRUE' : 'FALSE',
  };
  if (gap === null) return { ...stated, known: false };
  const penetrations = underGap.length > 0 ? underGap.join(', ') : 'none';
  return { ...stated, known: true, gap, length, passing: passing.length, penetrations };
}

/** Said to stop short of the structure, and drawn as if it did not. */
export const isSaidToStopShort = ({ head }: BarrierFacts): boolean =>
  head?.extendToStructure === false && head.gap === 0;

export function aroundFacts({ around, barrier }: Penetration) {
  const nearest: Partial<Record<AroundKind, number>> = {};
  for (const { kind, distance } of around) nearest[kind] = Math.min(nearest[kind] ?? Infinity, distance);
  const over = around.filter(({ side, kind }) => side === 'top' && (kind === 'end' || kind === 'slab'));
  const isUnderHead = barrier.kind === 'wall' && over.length > 0;
  return { head: isUnderHead ? Math.min(...over.map(({ distance }) => distance)) : null, nearest };
}

/** From the opening to the next edge, opening or construction beside it; as far as was looked where nothing is nearer. */
export const edgeDistance = ({ around }: Penetration): number =>
  Math.min(AROUND_REACH, ...around.map(({ distance }) => distance));
