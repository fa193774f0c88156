import { beforeAll, describe, expect, test } from 'vitest';
import { type Holder, KEYS, keyOf, type Places, type Press } from '../../viewer/state/keys.js';
import { openReport } from '../../viewer/state/open-report.js';
import { NOTHING_SELECTED, type OpenReport } from '../../viewer/state/state.js';
import { Store } from '../../viewer/state/store.js';
import { demoReport } from '../report/demo-report.js';

let open: OpenReport;
beforeAll(async () => {
  open = openReport(await demoReport());
});

const press = (key: string, more: Partial<Press> = {}): Press => ({
  ...{ key, ctrlKey: false, metaKey: false, altKey: false, isComposing: false, defaultPrevented: false },
  ...more,
});
const holder = (more: Partial<Holder> = {}): Holder => ({
  ...{ tagName: 'DIV', role: null, isContentEditable: false, isOpen: false },
  ...more,
});

function ready(): { store: Store; went: string[]; type: (...keys: string[]) => void; places: Places } {
  const store = new Store();
  store.change({ phase: { kind: 'ready' }, reviewed: open });
  const went: string[] = [];
  const places: Places = {
    toSheet: () => went.push('sheet'),
    toSearch: () => went.push('search'),
    toKeys: () => went.push('keys'),
    leaveSheet: () => went.at(-1) === 'sheet' && went.push('out') > 0,
  };
  const type = (...keys: string[]): void => {
    for (const key of keys) {
      const found = keyOf(press(key), [holder()])!;
      found.key.run(store, places, found.which);
    }
  };
  return { store, went, type, places };
}

test('no key has two meanings, and each has words', () => {
  const all = KEYS.flatMap(({ keys }) => keys);
  expect(new Set(all).size).toBe(all.length);
  for (const { does, shown } of KEYS) expect(`${does}${shown.join('')}`.length).toBeGreaterThan(4);
});

describe('keys', () => {
  test('walk along a barrier, to the next barrier and to the next storey', () => {
    const { store, type } = ready();
    const storey = open.building.storeys.find(({ name }) => name === 'First floor')!;
    const [first, second] = storey.barriers;
    expect(first!.penetrations.length).toBeGreaterThan(1);
    store.selectPenetration(first!.penetrations[0]!.id);
    type('ArrowRight');
    expect(store.state.selection.penetration).toBe(first!.penetrations[1]!.id);
    type('ArrowLeft');
    expect(store.state.selection.penetration).toBe(first!.penetrations[0]!.id);
    type('ArrowDown');
    expect(store.state.selection.barrier).toBe(second!.key);
    type('PageUp');
    const above = open.building.storeys[open.building.storeys.indexOf(storey) - 1]!;
    expect(store.state.selection.barrier).toBe(above.barriers[0]!.key);
    type('PageDown');
    expect(store.state.selection.barrier).toBe(first!.key);
  });

  test('turn, change views and layouts', () => {
    const { store, type } = ready();
    store.selectBarrier([...open.building.barriers.keys()][0]!);
    type('o', '3', 't');
    expect(store.state).toMatchObject({ selection: { side: 'B' }, view: 'along', faces: 'table' });
    type('O', '1', 'T');
    expect(store.state).toMatchObject({ selection: { side: 'A' }, view: 'front', faces: 'drawings' });
  });

  test('Esc leads out of the sheet, from what is picked to its place, to the barrier, to nothing', () => {
    const { store, went, type } = ready();
    const [p] = open.report.penetrations;
    store.selectPenetration(p!.id);
    store.select({ ...store.state.selection, element: { model: 'm1', globalId: 'x' } });
    type('Enter', 'Escape');
    expect(went).toEqual(['sheet', 'out']);
    expect(store.state.selection.element).not.toBeNull();
    type('Escape');
    expect(store.state.selection).toMatchObject({ element: null, penetration: p!.id });
    type('Escape');
    expect(store.state.selection).toMatchObject({ penetration: null, barrier: expect.any(String) });
    type('Escape', 'Escape');
    expect(store.state.selection).toEqual(NOTHING_SELECTED);
  });

  test('belong to fields, to what is open, and where they walk to tables and lists', () => {
    const at = (key: string, more: Partial<Holder>): boolean =>
      keyOf(press(key), [holder(more), holder()]) !== undefined;
    for (const tagName of ['INPUT', 'TEXTAREA', 'SELECT']) expect(at('t', { tagName })).toBe(false);
    expect(at('t', { isContentEditable: true })).toBe(false);
    expect(at('Escape', { isOpen: true })).toBe(false);
    expect(at('ArrowDown', { role: 'grid' })).toBe(false);
    expect(at('t', { role: 'grid' })).toBe(true);
    expect(at('Enter', { tagName: 'BUTTON' })).toBe(false);
    expect(at('ArrowDown', { tagName: 'BUTTON' })).toBe(true);
  });

  test('leave what the browser, or somebody before them, does with a key', () => {
    for (const more of [
      { ctrlKey: true },
      { metaKey: true },
      { altKey: true },
      { defaultPrevented: true },
      { isComposing: true },
    ])
      expect(keyOf(press('t', more), [])).toBeUndefined();
    expect(keyOf(press('x'), [])).toBeUndefined();
  });
});
