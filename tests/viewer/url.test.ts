import fc from 'fast-check';
import { afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { bindUrl } from '../../viewer/state/bind-url.js';
import { barrierKey } from '../../viewer/state/building.js';
import { openReport } from '../../viewer/state/open-report.js';
import { selectFirst } from '../../viewer/state/select-first.js';
import { FIRST_STATE, MODEL_VIEWS, NOTHING_SELECTED, type OpenReport, SORT_COLUMNS } from '../../viewer/state/state.js';
import { Store } from '../../viewer/state/store.js';
import { type Addressed, fromFragment, toFragment } from '../../viewer/state/url.js';
import { demoReport } from '../report/demo-report.js';
import { filters } from './filters.js';
import { largeReport } from './large-report.js';

let open: OpenReport;
beforeAll(async () => {
  open = openReport(await demoReport());
});

function states(): fc.Arbitrary<Addressed> {
  const { report, building } = open;
  const selection = fc.oneof(
    fc.constant(NOTHING_SELECTED),
    fc.constantFrom(...building.barriers.keys()).map((barrier) => ({ ...NOTHING_SELECTED, barrier })),
    fc.constantFrom(...report.penetrations).chain((p) =>
      fc.constantFrom(null, ...(building.lookup.findings.get(p.id) ?? [])).map((finding) => ({
        ...NOTHING_SELECTED,
        ...{ barrier: barrierKey(p), penetration: p.id, finding: finding?.id ?? null },
      })),
    ),
    fc.constantFrom(...report.findings).map(({ id }) => ({ ...NOTHING_SELECTED, finding: id })),
  );
  return fc.record({
    filter: filters(open),
    selection: fc.tuple(selection, fc.constantFrom('A', 'B')).map(([one, side]) => ({ ...one, side })),
    sort: fc.record({ column: fc.constantFrom(...SORT_COLUMNS), descending: fc.boolean() }),
    faces: fc.constantFrom('drawings', 'table'),
    view: fc.constantFrom(...MODEL_VIEWS),
    proposed: fc.boolean(),
  });
}

describe('an address', () => {
  test('gives back every state', () => {
    fc.assert(
      fc.property(states(), (state) => {
        expect(fromFragment(`#${toFragment(state, open)}`, open)).toEqual({ ...state, notHere: [] });
      }),
      { numRuns: 300 },
    );
  });

  test('reads as a person would say it, and says nothing of what is as at first', () => {
    expect(toFragment(FIRST_STATE, open)).toBe('');
    const [p] = open.report.penetrations;
    const storeys = [open.building.storeyOf(p!.storey!.globalId)];
    const filter = { ...FIRST_STATE.filter, storeys, outcomes: ['failed' as const] };
    const selection = { ...NOTHING_SELECTED, barrier: barrierKey(p!), penetration: p!.id };
    expect(toFragment({ ...FIRST_STATE, filter, selection }, open)).toBe(
      `storey=Ground+floor&outcome=failed&at=${p!.tag}`,
    );
  });

  test('says nothing of what passes: findings that a trial moves, an element picked in the model', () => {
    const filter = { ...FIRST_STATE.filter, keys: [open.report.findings[0]!.key] };
    const selection = { ...NOTHING_SELECTED, element: { model: 'm1', globalId: 'x' } };
    expect(toFragment({ ...FIRST_STATE, filter, selection }, open)).toBe('');
  });

  test('holds for the next revision, in which all ids are others', () => {
    const { report } = open;
    const [finding] = report.findings.filter(({ subject }) => subject.type === 'penetration');
    const p = open.building.lookup.penetrations.get(finding!.subject.id)!;
    const selection = { ...NOTHING_SELECTED, barrier: barrierKey(p), penetration: p.id, finding: finding!.id };
    const address = toFragment({ ...FIRST_STATE, selection }, open);
    const next = openReport({
      ...report,
      penetrations: report.penetrations.map((one) => ({ ...one, id: `${one.id}9` })),
      findings: report.findings.map((one) => ({
        ...{ ...one, id: `${one.id}9` },
        subject: { ...one.subject, id: one.subject.type === 'penetration' ? `${one.subject.id}9` : one.subject.id },
      })),
    });
    expect(fromFragment(address, next)).toMatchObject({
      selection: { penetration: `${p.id}9`, finding: `${finding!.id}9` },
      notHere: [],
    });
  });

  test('names what shares its name by its GlobalId as well', () => {
    const { report } = open;
    const named = {
      ...report,
      penetrations: report.penetrations.map((p) => ({ ...p, barrier: { ...p.barrier, name: 'W' } })),
    };
    const alike = openReport(named);
    for (const barrier of alike.building.barriers.keys()) {
      const address = toFragment({ ...FIRST_STATE, selection: { ...NOTHING_SELECTED, barrier } }, alike);
      expect(fromFragment(address, alike)).toMatchObject({ selection: { barrier }, notHere: [] });
    }
  });

  test('what the report does not have is named, and all else holds', () => {
    const asked = 'storey=Level+9&storey=Roof&system=KX&at=NONE-1&finding=0&view=sideways&sort=luck&colour=red';
    const { notHere, filter, selection } = fromFragment(asked, open);
    expect(notHere).toEqual([
      'storey Level 9',
      'penetration NONE-1',
      'finding 0',
      'sort luck',
      'view sideways',
      'an address part that can not be read colour',
    ]);
    expect(filter).toMatchObject({ storeys: [expect.any(String)], systems: ['KX'] });
    expect(selection).toEqual(NOTHING_SELECTED);
  });

  test('no text whatever makes it throw', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary' }),
        fc.constantFrom('', '#', 'storey=', 'at=', '#%E0%A4%A='),
        (text, start) => {
          expect(fromFragment(`${start}${text}`, open).faces).toMatch(/drawings|table/);
        },
      ),
    );
  });
});

describe('a page', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  function aPage(hash = '') {
    const listeners = new Set<() => void>();
    const entries = [hash];
    const page = {
      location: { hash, pathname: '/', search: '' },
      history: {
        pushState: (_: unknown, __: string, url: string) => {
          entries.push(hashIn(url));
          page.location.hash = hashIn(url);
        },
        replaceState: (_: unknown, __: string, url: string) => {
          entries[entries.length - 1] = hashIn(url);
          page.location.hash = hashIn(url);
        },
      },
      addEventListener: (_: 'hashchange', listener: () => void) => listeners.add(listener),
      removeEventListener: (_: 'hashchange', listener: () => void) => listeners.delete(listener),
    };
    const back = (): void => {
      entries.pop();
      page.location.hash = entries.at(-1)!;
      for (const listener of listeners) listener();
    };
    return { page, entries, back, listeners };
  }
  const hashIn = (url: string): string => (url.startsWith('#') ? url : '');

  function opened(hash = '') {
    const store = new Store();
    const at = aPage(hash);
    const stop = bindUrl(store, at.page);
    store.change({ phase: { kind: 'ready' }, reviewed: open });
    return { store, stop, ...at };
  }

  test('shows what its address asks for as soon as there is a report', () => {
    const [p] = open.report.penetrations;
    const { store } = opened(`#at=${p!.tag}&show=table&system=KX`);
    expect(store.state).toMatchObject({
      ...{ faces: 'table', filter: { systems: ['KX'] } },
      selection: { penetration: p!.id, barrier: barrierKey(p!) },
    });
  });

  test('goes back from selection to selection, never through what was typed', () => {
    const { store, entries, back } = opened();
    const places = open.report.penetrations.slice(0, 3);
    for (const p of places) {
      store.selectPenetration(p.id);
      vi.advanceTimersByTime(2000);
      for (const text of ['d', 'du', 'duct']) {
        store.filter({ text });
        vi.advanceTimersByTime(300);
      }
    }
    // The first is where one starts: no entry stands before it.
    expect(entries).toEqual(places.map(({ tag }) => `#words=duct&at=${tag}`));
    for (const p of places.slice(0, 2).reverse()) {
      back();
      expect(store.state.selection.penetration).toBe(p.id);
      vi.advanceTimersByTime(2000);
    }
    expect(entries).toEqual([`#words=duct&at=${places[0]!.tag}`]);
  });

  test('a walk is written at most four times a second, and is one step back', () => {
    const { store, page, entries } = opened();
    selectFirst(store);
    vi.advanceTimersByTime(2000);
    const writes = [vi.spyOn(page.history, 'pushState'), vi.spyOn(page.history, 'replaceState')];
    for (const { id } of open.report.penetrations.slice(0, 30)) {
      store.selectPenetration(id);
      vi.advanceTimersByTime(30);
    }
    vi.advanceTimersByTime(1000);
    expect(writes.reduce((sum, { mock }) => sum + mock.calls.length, 0)).toBeLessThanOrEqual(5);
    expect(entries).toHaveLength(2);
    expect(page.location.hash).toBe(`#at=${open.report.penetrations[29]!.tag}`);
  });

  test('the next report shows the same, and what is gone from it is said', () => {
    const { store } = opened();
    const [p] = open.report.penetrations;
    store.selectPenetration(p!.id);
    store.filter({ systems: ['KX'], storeys: [open.building.storeyOf(p!.storey!.globalId)] });
    store.change({ reviewed: openReport(largeReport(open.report, { buildings: 1, findingsEach: 1 })) });
    expect(store.state.notHere).toEqual(['storey Ground floor', 'system KX', `penetration ${p!.tag}`]);
    expect(store.state.selection.penetration).toBeNull();
  });

  test('is left alone when nobody binds it any more', () => {
    const { store, stop, page, listeners } = opened();
    stop();
    store.filter({ text: 'duct' });
    vi.advanceTimersByTime(1000);
    expect(page.location.hash).toBe('');
    expect(listeners.size).toBe(0);
  });
});
