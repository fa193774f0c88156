/** Risers of a run, and what is told while a federation is searched. */
import { expect, it } from 'vitest';
import { CutPieces } from '../../src/find/cut-pieces.js';
import { readPieces } from '../../src/find/pieces.js';
import { risersOf } from '../../src/find/risers.js';
import { searchFederation } from '../../src/find/search.js';
import { rectangle } from '../../src/geometry/polygon.js';
import { aBarrier, aDuct, between, federationOf, upright } from './elements.js';

it('risers that pass floors are told in the order of their elements, whatever order those come in', () => {
  const elements = ['A', 'B', 'C', 'passes none'].map((globalId) =>
    aDuct({ globalId, bodies: [upright(rectangle(400, 300), 0, 3000)] }),
  );
  const floorsOf = new Map(elements.slice(0, 3).map((element) => [element, ['P-0001']]));
  for (const inFile of [elements, elements.toReversed()]) {
    const cut = new CutPieces(new Map(), new Map(), new Map());
    const risers = risersOf(readPieces(inFile), [], { federation: federationOf(), cut, floorsOf });
    expect(risers.map((riser) => riser.elements.map(({ globalId }) => globalId))).toEqual([['A'], ['B'], ['C']]);
  }
});

it('a search tells the share of the barriers that it has been through', () => {
  const barriers = [0, 1000, 2000, 3000].map((y, i) =>
    aBarrier({ globalId: `W${i}`, bodies: [upright(between([0, y], [4000, y + 200]), 0, 3000)] }),
  );
  const told: number[] = [];
  searchFederation(federationOf({ barriers }), (share) => told.push(share));
  expect(told).toEqual([0.25, 0.5, 0.75, 1]);
});
