/** Facts that compare what two sources say of a barrier: what is not known on either side never reads as agreement. */
import { describe, expect, it } from 'vitest';
import type { AroundOpening, HeadFacts, Rating } from '../../src/model.js';
import {
  aroundFacts,
  drawingFacts,
  edgeDistance,
  headFacts,
  isSaidToStopShort,
  layersDifference,
} from '../../src/rules/barrier-facts.js';
import { AROUND_REACH } from '../../src/tolerances.js';
import { barrier, NOT_REQUIRED, penetration, rating, UNREADABLE } from './factories.js';

it('layers and drawing differ by so much either way; nothing where one of them is not known', () => {
  const differ = (layersThickness: number | null, drawnThickness: number | null) =>
    layersDifference(barrier({ layersThickness, drawnThickness }));
  expect(differ(130, 128)).toBe(2);
  expect(differ(120, 128)).toBe(8);
  expect(differ(null, 128)).toBeNull();
  expect(differ(128, null)).toBeNull();
});

describe('a rating against the drawing', () => {
  const asOnDrawing = (own: Rating, other: Rating) => {
    const drawing = { rating: { ...other, text: `drawn ${other.text}` }, drawing: 'A-1', revision: 'P2' };
    return drawingFacts(barrier({ rating: own, drawing }));
  };
  const bare = (duration: number) =>
    rating({ state: 'durationOnly', integrity: null, insulation: null, loadbearing: null, duration });

  it.each<[string, Rating, Rating, boolean | null]>([
    ['the same of both criteria', rating(), rating(), true],
    ['another integrity', rating({ integrity: 60 }), rating(), false],
    ['another insulation', rating({ insulation: 60 }), rating(), false],
    ['none of a criterion that the other has', rating({ insulation: 'none' }), rating(), false],
    ['a criterion that is not known', rating({ insulation: null }), rating(), null],
    ['one not known and the other contradicted', rating({ insulation: null, integrity: 30 }), rating(), false],
    ['two equal durations', bare(60), bare(60), true],
    ['two other durations', bare(60), bare(90), false],
    ['a duration that neither criterion has', bare(90), rating({ integrity: 120, insulation: 60 }), false],
    ['a duration that one criterion has', bare(120), rating({ integrity: 120, insulation: 60 }), null],
    ['a duration that both have', bare(120), rating(), null],
    ['a duration and one that asks for no insulation', bare(90), rating({ insulation: 'none' }), false],
    ['a duration and nothing that is known', bare(90), rating({ integrity: null, insulation: null }), null],
    ['a duration and what can not be read', bare(90), UNREADABLE, null],
    ['what can not be read', UNREADABLE, rating(), null],
    ['not required', NOT_REQUIRED, rating(), null],
  ])('%s', (_, a, b, agrees) => {
    const [there, back] = [asOnDrawing(a, b), asOnDrawing(b, a)];
    expect(there).toEqual({ given: true, name: 'A-1 P2', text: `drawn ${b.text}`, agrees });
    expect(back).toMatchObject({ agrees });
  });

  it('agrees where it is the same text, whatever it means', () => {
    const drawing = { rating: UNREADABLE, drawing: 'A-1', revision: 'P2' };
    expect(drawingFacts(barrier({ rating: UNREADABLE, drawing }))).toMatchObject({ agrees: true });
  });

  it('can not disagree with itself, and says nothing without a drawing', () => {
    const drawing = { rating: rating(), drawing: 'A-1', revision: 'P2' };
    expect(drawingFacts(barrier({ rating: rating({ from: 'brief' }), drawing }))).toEqual({ given: false });
    expect(drawingFacts(barrier({ drawing: null }))).toEqual({ given: false });
  });
});

describe('the head of a wall', () => {
  const HEAD: HeadFacts = { gap: 25, length: 3000, at: [0, 0, 3], passing: [], extendToStructure: null };
  const pipe = { model: 'm1', globalId: 'B1' };

  it('is measured or not, and known only where there is structure above', () => {
    expect(headFacts(null, ['P-0001'])).toEqual({ measured: false });
    const stated = { measured: true, extendToStructureGiven: false, extendToStructure: null };
    expect(headFacts({ ...HEAD, gap: null }, [])).toEqual({ ...stated, known: false });
    expect(headFacts({ ...HEAD, passing: [pipe, pipe] }, ['P-0001', 'P-0002'])).toEqual({
      ...{ ...stated, known: true, gap: 25, length: 3000, passing: 2, penetrations: 'P-0001, P-0002' },
    });
    expect(headFacts({ ...HEAD, gap: 0 }, [])).toMatchObject({ known: true, gap: 0, penetrations: 'none' });
  });

  it('says what the model states of it', () => {
    const stated = (extendToStructure: boolean) => headFacts({ ...HEAD, extendToStructure }, []);
    expect(stated(true)).toMatchObject({ extendToStructureGiven: true, extendToStructure: 'TRUE' });
    expect(stated(false)).toMatchObject({ extendToStructureGiven: true, extendToStructure: 'FALSE' });
  });

  it('is said to stop short only where it is drawn as if it did not', () => {
    const short = (head: Partial<HeadFacts>) => isSaidToStopShort(barrier({ head: { ...HEAD, ...head } }));
    expect(short({ extendToStructure: false, gap: 0 })).toBe(true);
    expect(short({ extendToStructure: false, gap: 1 })).toBe(false);
    expect(short({ extendToStructure: false, gap: null })).toBe(false);
    expect(short({ extendToStructure: true, gap: 0 })).toBe(false);
    expect(short({ extendToStructure: null, gap: 0 })).toBe(false);
    expect(isSaidToStopShort(barrier({ head: null }))).toBe(false);
  });
});

describe('what lies round an opening', () => {
  const near = (kind: AroundOpening['kind'], distance: number, side: AroundOpening['side'] = 'top'): AroundOpening => ({
    ...{ kind, distance, side, element: { model: 'm2', globalId: 'W1' } },
  });
  const of = (around: AroundOpening[], kind: 'wall' | 'floor' = 'wall') =>
    aroundFacts(penetration({ around, barrier: barrier({ kind }) }));

  it('is the nearest of each kind', () => {
    expect(of([near('door', 300, 'left'), near('door', 200, 'right'), near('corner', 0, 'left')])).toEqual({
      head: null,
      nearest: { door: 200, corner: 0 },
    });
    expect(of([])).toEqual({ head: null, nearest: {} });
  });

  it('is a head where a wall ends or meets a slab above', () => {
    expect(of([near('end', 90), near('slab', 80)]).head).toBe(80);
    expect(of([near('end', 90)]).head).toBe(90);
    expect(of([near('slab', 80, 'bottom')]).head).toBeNull();
    expect(of([near('column', 80)]).head).toBeNull();
    expect(of([near('end', 90)], 'floor').head).toBeNull();
  });

  it('is as far as the nearest of all, or as far as was looked', () => {
    const nearest = (...around: AroundOpening[]) => edgeDistance(penetration({ around }));
    expect(nearest(near('door', 300), near('corner', 40))).toBe(40);
    expect(nearest()).toBe(AROUND_REACH);
    expect(nearest(near('door', AROUND_REACH + 1))).toBe(AROUND_REACH);
  });
});
