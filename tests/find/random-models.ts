/** What every random model draws first, and how near its measures have to come. */
import fc from 'fast-check';
import { MILLIMETRES_PER } from '../../fixtures/ifc-writer.js';

export const mm = (min: number, max: number) => fc.integer({ min, max });

export const anyFrame = {
  schema: fc.constantFrom('IFC2X3', 'IFC4', 'IFC4X3' as const),
  unit: fc.constantFrom(...(Object.keys(MILLIMETRES_PER) as (keyof typeof MILLIMETRES_PER)[])),
  rotation: fc.integer({ min: 0, max: 359 }),
  offset: fc.tuple(mm(-1e6, 5e8), mm(-1e6, 5.8e9), mm(-1e4, 1e5)),
};

export const within = (n: number) => ({
  asymmetricMatch: (m: unknown) => typeof m === 'number' && Math.abs(m - n) <= 0.2,
  toString: () => `within 0.2 of ${n}`,
});
