/** Ways along ductwork to its supports; from the drawing. */
import { expect, it } from 'vitest';
import { type PlacedSupport, spansOf } from '../../src/find/support-spans.js';
import type { Vec3 } from '../../src/model.js';
import { penetration, run, stretch, stretchPart } from '../model-factories.js';

const H = 2500;

it('from a barrier the nearest support counts, though an end without one is nearer', () => {
  // From a wall of 128 mm at x = 3000; a branch of 500 mm begins 1 m behind it, a support stands at 5500.
  const part = (globalId: string, from: Vec3, to: Vec3, joins: readonly number[]) =>
    stretchPart({ globalId, from, to, joins });
  const stretches = [
    stretch({
      parts: [part('D1', [3000, 0, H], [6000, 0, H], [1]), part('D2', [4000, 0, H], [4000, 500, H], [0])],
      ends: [{ penetration: 'P-0001', part: 0 }],
    }),
  ];
  const at: Vec3 = [5500, 0, H];
  const support: PlacedSupport = {
    facts: {
      ...{ id: 'S1', name: 'S1', elements: [], carries: { model: 'm1', globalId: 'D1' }, run: 'R-001' },
      ...{ position: at, rod: null, bearer: null, rodLength: null, hangsFrom: null },
    },
    at,
    along: 0,
  };
  const { spans } = spansOf([run({ stretches })], [support], [penetration({ position: [3000, 0, H] })]);
  expect(spans.filter(({ kind }) => kind === 'barrier').map((span) => [span.length, span.supports])).toEqual([
    [2500 - 64, ['S1']],
  ]);
});
