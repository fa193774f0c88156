import type { AroundKind, BarrierFacts, HeadFacts, Penetration, Rating } from '../model.js';

/** Facts of barriers that compare one thing that is known with another; null where either is not. */

export function layersDifference({ layersThickness, leafThickness, thickness }: BarrierFacts): number | null {
  const measured = leafThickness ?? thickness;
  return layersThickness === null || measured === null ? null : Math.abs(layersThickness - measured);
}

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
export const headFacts = (head: HeadFacts | null, underGap: readonly string[]) =>
  head && head.gap !== null
    ? {
        measured: true,
        known: true,
        gap: head.gap,
        length: head.length,
        passing: head.passing.length,
        penetrations: underGap.length > 0 ? underGap.join(', ') : 'none',
        extendToStructure: statedOfHead(head.extendToStructure, head.gap),
      }
    : { measured: head !== null, known: head ? false : null };

function statedOfHead(reaches: boolean | null, gap: number) {
  if (reaches === null) return 'unstated';
  if (reaches === (gap === 0)) return 'asDrawn';
  return reaches ? 'trueButShort' : 'falseButReaching';
}

export function aroundFacts({ around, barrier }: Penetration) {
  const nearest: Partial<Record<AroundKind, number>> = {};
  for (const { kind, distance } of around) nearest[kind] = Math.min(nearest[kind] ?? Infinity, distance);
  const over = around.filter(({ side, kind }) => side === 'top' && (kind === 'end' || kind === 'slab'));
  const isUnderHead = barrier.kind === 'wall' && over.length > 0;
  return { head: isUnderHead ? Math.min(...over.map(({ distance }) => distance)) : null, nearest };
}
