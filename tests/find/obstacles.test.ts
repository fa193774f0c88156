/** What stands in the way of ductwork, from everything that is read: each thing by its own box, told for what it is. */
import { expect, it } from 'vitest';
import { obstacleIndex } from '../../src/find/obstacles.js';
import { readPieces } from '../../src/find/pieces.js';
import type { Federation, Obstacle, OtherService } from '../../src/model.js';
import { aBarrier, aDuct, between, federationOf, upright } from './elements.js';

/** A post of 100 by 100 mm, 1 m high, its south-west foot at x. */
const postAt = (x: number) => ({ bodies: [upright(between([x, 0], [x + 100, 100]), 0, 1000)] });
const named = (name: string) => ({ model: 'm2', globalId: name, name, entity: 'X', storey: undefined });

const beam: Obstacle = { ...named('beam'), ...postAt(3000), kind: 'beam', combustible: true };
const pipe: OtherService = { ...named('pipe'), ...postAt(4000), kind: 'pipe' };
const duct = aDuct({ ...postAt(5000), combustible: true });
const all: Partial<Federation> = {
  barriers: [
    aBarrier({ ...named('wall'), ...postAt(0), construction: 'masonry', combustible: false }),
    aBarrier({ ...named('slab'), ...postAt(1000), kind: 'floor', construction: 'unknown' }),
  ],
  columns: [{ ...named('column'), ...postAt(2000), kind: 'column', combustible: false }],
  ...{ obstacles: [beam], otherServices: [pipe], airElements: [duct] },
};
const everywhere = { min: [-1, -1, -1], max: [9000, 200, 2000] } as const;
const within = (federation: Partial<Federation>, box = everywhere as Parameters<ReturnType<typeof obstacleIndex>>[0]) =>
  obstacleIndex(federationOf(federation), readPieces(federation.airElements ?? []))(box);

it('finds barriers, columns, obstacles, other services and ductwork, in this order, and says what each is', () => {
  const found = within(all).map(({ ref, name, what, kind, combustible, construction }) => {
    return [ref.globalId, name, what, kind, combustible, construction];
  });
  expect(found).toEqual([
    ['wall', 'wall', 'barrier', 'wall', false, 'masonry'],
    ['slab', 'slab', 'barrier', 'floor', undefined, 'unknown'],
    ['column', 'column', 'column', 'column', false, undefined],
    ['beam', 'beam', 'obstacle', 'beam', true, undefined],
    ['pipe', 'pipe', 'service', 'pipe', undefined, undefined],
    // Of what a duct is made its own facts say; what is round it may burn or not.
    ['D', 'D', 'duct', 'segment', undefined, undefined],
  ]);
});

it('finds each by its own box alone, with its bodies; of ductwork the piece that is measured', () => {
  within(all).forEach((one, i) => {
    const box = { min: [1000 * i, 0, 0], max: [1000 * i + 100, 100, 1000] } as const;
    expect(within(all, box)).toEqual([one]);
    expect([one.box, one.bodies]).toEqual([box, postAt(1000 * i).bodies]);
    expect(one.piece?.element).toBe(i === 5 ? duct : undefined);
  });
});

it('nothing stands where nothing is read', () => {
  expect(within({})).toEqual([]);
});
