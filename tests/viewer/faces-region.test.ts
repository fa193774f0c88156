import { beforeAll, describe, expect, it } from 'vitest';
import type { OutcomeCounts, Report } from '../../src/report/schema.js';
import { holdTicks, stoppedTick } from '../../viewer/faces/hold-ticks.js';
import { placeRow } from '../../viewer/faces/layout.js';
import { newPenetrations } from '../../viewer/faces/revision.js';
import {
  chosenStoreys,
  LEAST_HEIGHT,
  placeRowOfStoreys,
  placeSection,
  type Section,
  sectionOf,
} from '../../viewer/faces/section.js';
import { Flats, headOf, inSight, itemOf, plannedItems, turnedItems } from '../../viewer/faces/strips.js';
import { openReport } from '../../viewer/state/open-report.js';
import { NO_FILTER, type OpenReport } from '../../viewer/state/state.js';
import { Store } from '../../viewer/state/store.js';
import { stepAlong, stepBarrier, stepStorey } from '../../viewer/state/walk.js';
import { demoReport } from '../report/demo-report.js';

let report: Report;
let open: OpenReport;
beforeAll(async () => {
  report = await demoReport();
  open = openReport(report);
});

const everyId = (): ReadonlySet<string> => new Set(report.penetrations.map(({ id }) => id));
const planned = (seen = everyId()) =>
  plannedItems({ flats: new Flats(open, null), seen, width: 441, enlarged: new Map() });

describe('the list of faces', () => {
  it('has all rows of the barriers that the filter lets through, one under the other', () => {
    const { items, height } = planned();
    let top = 0;
    for (const item of items) {
      expect(item.top).toBe(top);
      top += item.height;
    }
    expect(height).toBe(top);
    expect(items.filter(({ kind }) => kind === 'barrier')).toHaveLength(open.building.barriers.size);
    const [p] = report.penetrations;
    expect(planned(new Set([p!.id])).items.filter(({ kind }) => kind === 'barrier')).toHaveLength(1);
  });

  it('knows what is in sight without looking at all', () => {
    const list = planned();
    for (const from of [0, 500, 3_333, list.height - 100]) {
      const [first, end] = inSight(list, from, from + 600);
      const seen = list.items.filter(({ top, height }) => top + height > from && top < from + 600);
      expect(list.items.slice(first, end)).toEqual(seen);
    }
  });

  it('keeps its length when a barrier is turned, and finds every penetration on both sides', () => {
    const list = planned();
    for (const { key, penetrations } of open.building.barriers.values()) {
      const turned = turnedItems(list, key);
      const last = turned.items.at(-1)!;
      expect(last.top + last.height).toBe(list.height);
      for (const side of ['A', 'B'] as const)
        for (const { id } of penetrations) {
          const [head, row] = itemOf(side === 'A' ? list : turned, key, id, side);
          expect(head?.kind).toBe('barrier');
          if (row?.kind !== 'row') throw new Error(`${id} is in no row`);
          const drawn = placeRow(row.plan, row.index, side);
          expect(drawn.penetrations.some(({ penetration }) => penetration.id === id)).toBe(true);
          expect(
            headOf(
              turned,
              turned.items.findIndex((one) => one.kind === 'row' && one.plan === row.plan),
            ),
          ).toEqual(head);
        }
    }
  });
});

const counts = (part: Partial<OutcomeCounts>): OutcomeCounts => ({
  ...{ passed: 0, failed: 0, cantTell: 0, inapplicable: 0, untested: 0 },
  ...part,
});
/** Storeys 3 m high, from the top down. */
const tower = (storeys: number): Section => ({
  shafts: [],
  storeys: Array.from({ length: storeys }, (_, i) => ({
    storey: {
      ...{ key: `S${i}`, name: `Level ${storeys - i}`, elevation: (storeys - i) * 3_000 },
      ...{ barriers: [], outcomes: counts({}) },
    },
    walls: counts(i % 2 === 0 ? { failed: 3, passed: 2 } : {}),
    slab: counts({}),
    shafts: [],
  })),
});

describe('the building section', () => {
  it('counts every penetration of the demo building once, in walls or on a slab', () => {
    const { storeys } = sectionOf(report, open.building);
    const total = storeys
      .flatMap(({ walls, slab }) => [...Object.values(walls), ...Object.values(slab)])
      .reduce((sum, one) => sum + one, 0);
    expect(total).toBe(report.penetrations.length);
    const inWalls = report.penetrations.filter(({ barrier }) => barrier.kind === 'wall').length;
    expect(storeys.flatMap(({ walls }) => Object.values(walls)).reduce((sum, one) => sum + one, 0)).toBe(inWalls);
  });

  it('stands the shafts that lie over each other in one column', () => {
    const { storeys, shafts } = sectionOf(report, open.building);
    const main = shafts.findIndex(({ names }) => names.some((name) => name.includes('G.SH')));
    expect(shafts[main]!.names).toHaveLength(3);
    expect(storeys.filter((storey) => storey.shafts.includes(main)).map(({ storey }) => storey.name)).toEqual([
      'Second floor',
      'First floor',
      'Ground floor',
    ]);
  });

  it('never draws a storey lower than can be hit, and scrolls where forty do not fit', () => {
    const placed = placeSection(tower(40), 640);
    expect(placed.isFull).toBe(false);
    expect(placed.height).toBeGreaterThan(640);
    for (const { height } of placed.storeys) expect(height).toBeGreaterThanOrEqual(LEAST_HEIGHT);
    expect(placed.storeys.map(({ y }) => y)).toEqual([...placed.storeys.map(({ y }) => y)].sort((a, b) => a - b));
  });

  it('has room for all outcomes where few storeys stand, at heights as in the building', () => {
    const three = tower(3);
    const storeys = three.storeys.map((one, i) => ({
      ...one,
      storey: { ...one.storey, elevation: [12_000, 3_000, 0][i]! },
    }));
    const placed = placeSection({ ...three, storeys }, 900);
    expect(placed.isFull).toBe(true);
    expect(placed.height).toBeLessThanOrEqual(900);
    // 9 m over 3 m; a px is lost to whole px.
    expect(placed.storeys[1]!.height / placed.storeys[2]!.height).toBeCloseTo(3, 1);
    expect(placeRowOfStoreys(three, 60).isFull).toBe(false);
    expect(placeRowOfStoreys(three, 120).isFull).toBe(true);
  });

  it('chooses one storey, a range, and all again', () => {
    const all = ['S3', 'S2', 'S1', 'S0'];
    expect(chosenStoreys(all, [], 'S1', null, false)).toEqual(['S1']);
    expect(chosenStoreys(all, ['S1'], 'S1', 'S1', false)).toEqual([]);
    expect(chosenStoreys(all, ['S1'], 'S3', 'S1', true)).toEqual(['S3', 'S2', 'S1']);
    expect(chosenStoreys(all, ['S3', 'S2', 'S1'], 'S0', 'S1', true)).toEqual(['S1', 'S0']);
    expect(chosenStoreys(all, [], 'S2', null, true)).toEqual(['S2']);
  });
});

describe('the hold-point line', () => {
  it('names the earliest step at risk, and none where nothing is known against the work', () => {
    for (const p of report.penetrations) {
      const ticks = holdTicks(p, open.building);
      expect(ticks).toHaveLength(5);
      expect(ticks.filter(({ isStopped }) => isStopped).length).toBeLessThanOrEqual(1);
      if (stoppedTick(ticks) === undefined) expect(p.outcome).not.toBe('untested');
    }
    const failed = report.penetrations.filter(({ outcome }) => outcome === 'failed');
    const named = failed.map((p) => stoppedTick(holdTicks(p, open.building))?.step.id);
    expect(named).toContain('openingReady');
    expect(named).toContain('closedUp');
  });
});

describe('what is new since the review before', () => {
  it('is told by when a tag was issued, and only where there was one before', () => {
    const [first, second] = report.penetrations;
    const tags = report.penetrations.map(({ tag, key }) => ({
      ...{ tag, key, absentSince: null },
      issuedAt: key === first!.key ? report.createdAt : '2025-01-01T00:00:00Z',
    }));
    expect(newPenetrations({ ...report, revision: 'B', issuedTags: tags })).toEqual(new Set([first!.id]));
    expect(newPenetrations({ ...report, revision: null, issuedTags: tags }).size).toBe(0);
    const allNow = tags.map((tag) => ({ ...tag, issuedAt: report.createdAt }));
    expect(newPenetrations({ ...report, revision: 'B', issuedTags: allNow }).size).toBe(0);
    expect(newPenetrations({ ...report, revision: 'B', issuedTags: tags }).has(second!.id)).toBe(false);
  });
});

describe('walking', () => {
  const storeAt = (id: string): Store => {
    const store = new Store();
    store.change({ phase: { kind: 'ready' }, reviewed: open });
    store.selectPenetration(id);
    return store;
  };

  it('goes along a barrier to the right as seen from the side that one stands on', () => {
    const wall = [...open.building.barriers.values()].find(({ name }) => name === 'Corridor wall G')!;
    const store = storeAt(wall.penetrations[3]!.id);
    stepAlong(store, 1);
    expect(store.state.selection.penetration).toBe(wall.penetrations[4]!.id);
    store.turn();
    stepAlong(store, 1);
    expect(store.state.selection).toMatchObject({ penetration: wall.penetrations[3]!.id, side: 'B' });
    store.selectPenetration(wall.penetrations[0]!.id);
    stepAlong(store, 1);
    expect(store.state.selection.penetration).toBe(wall.penetrations[0]!.id);
  });

  it('steps on from where one stands when the filter has held that back', () => {
    const wall = [...open.building.barriers.values()].find(({ name }) => name === 'Sail wall')!;
    const at = wall.penetrations.findIndex(
      (p, i) => p.outcome !== 'failed' && wall.penetrations.slice(i).some(({ outcome }) => outcome === 'failed'),
    );
    const store = storeAt(wall.penetrations[at]!.id);
    store.change({ filter: { ...NO_FILTER, outcomes: ['failed'] } });
    stepAlong(store, 1);
    const index = wall.penetrations.findIndex(({ id }) => id === store.state.selection.penetration);
    expect(index).toBeGreaterThan(at);
  });

  it('reaches every barrier downwards, and every storey that has one', () => {
    const keys = open.building.storeys.flatMap(({ barriers }) => barriers.map(({ key }) => key));
    const store = storeAt(open.building.barriers.get(keys[0]!)!.penetrations[0]!.id);
    const walked = [store.state.selection.barrier];
    for (let i = 1; i < keys.length; i++) {
      stepBarrier(store, 1);
      walked.push(store.state.selection.barrier);
    }
    expect(walked).toEqual(keys);
    stepStorey(store, -1);
    expect(open.building.barriers.get(store.state.selection.barrier!)!.storey).toBe(open.building.storeys.at(-2)!.key);
  });
});
