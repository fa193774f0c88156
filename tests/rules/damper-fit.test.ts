import { expect, it } from 'vitest';
import type { AroundOpening } from '../../src/model.js';
import { aroundFacts } from '../../src/rules/barrier-facts.js';
import { damperFitOf } from '../../src/rules/damper-fit.js';
import { penetrationFacts } from '../../src/rules/facts.js';
import { barrier, damper, penetration } from './factories.js';

const LIMITS = { purposeAllowed: true, shapeAllowed: true, orientationAllowed: true, constructionAllowed: true };
const judged = (limits: object, size: object) =>
  damperFitOf({ ...LIMITS, ...limits }, { penetration: { damper: { shape: 'rectangular', ...size } } });

it('misses a size out of its range on either side, and knows nothing of a range with one end', () => {
  const range = { widthAtLeast: 100, widthAtMost: 1000, heightAtLeast: 100, heightAtMost: 600 };
  expect(judged(range, { width: 100, height: 600 }).misses).toEqual([]);
  expect(judged(range, { width: 99, height: 601 }).misses).toEqual(['width', 'height']);
  expect(judged(range, { width: 100, height: 600 }).unknown).not.toContain('width');
  expect(judged({ ...range, widthAtMost: undefined }, { width: 100, height: 600 }).unknown).toContain('width');
  expect(judged({ ...range, widthAtLeast: undefined }, { width: 100, height: 600 }).unknown).toContain('width');
  expect(judged(range, { height: 600 }).unknown).toContain('width');
});

it('measures how far a casing stands out at the face where it stands out more', () => {
  const out = (standsOut: [number, number] | null) =>
    penetrationFacts(penetration({ dampers: [damper({ standsOut })] })).damper;
  expect(out([30, 80])).toMatchObject({ standsOut: 80 });
  expect(out([80, 30])).toMatchObject({ standsOut: 80 });
  expect(out(null)).not.toHaveProperty('standsOut');
});

it('finds a head over an opening in a wall, and none in a floor', () => {
  const element = { model: 'm2', globalId: 'S1' };
  const around: AroundOpening[] = [{ side: 'top', kind: 'slab', distance: 120, element }];
  expect(aroundFacts(penetration({ around }))).toEqual({ head: 120, nearest: { slab: 120 } });
  expect(aroundFacts(penetration({ around, barrier: barrier({ kind: 'floor' }) })).head).toBeNull();
});

it('has to reach the minutes that are asked, and is not known to where its own are not', () => {
  const fitWith = (limits: object) =>
    damperFitOf(
      { ...LIMITS, ...limits },
      { penetration: { damper: { shape: 'rectangular' }, required: { integrity: 60, insulation: 60 } } },
    );
  expect(fitWith({ integrity: 60, insulation: 59 }).misses).toEqual(['insulation']);
  expect(fitWith({ integrity: 59, insulation: 60 }).misses).toEqual(['integrity']);
  const told = fitWith({ insulation: 'none' });
  expect([told.misses, told.unknown]).toEqual([[], expect.arrayContaining(['integrity', 'insulation'])]);
});
