import { describe, expect, it } from 'vitest';
import type { Storey } from '../../src/model.js';
import { onStorey, sameStoreys, storeysIn } from '../../src/quantify/storeys.js';

const storey = (globalId: string, name: string, elevation: number): Storey => ({ globalId, name, elevation });

describe('storeys of several models', () => {
  const architecture = [storey('A0', 'Level 0', 0), storey('A1', 'Level 1', 3600)];
  const services = [storey('S0', 'level-0', -80), storey('S1', 'Level 1', 3500), storey('S2', 'Roof', 7000)];
  const elements = (storeys: readonly Storey[]) => storeys.map((one) => ({ storey: one }));
  const found = storeysIn({
    barriers: [...elements(architecture), ...elements(architecture), { storey: undefined }],
    airElements: elements(services),
  });

  it('are listed once, those of barriers first', () => {
    expect(found.map(({ globalId }) => globalId)).toEqual(['A0', 'A1', 'S0', 'S1', 'S2']);
  });

  it('are one where name and height are the same, so that sums of a storey have all of it', () => {
    const same = sameStoreys(found);
    expect(['A0', 'S0', 'A1', 'S1', 'S2'].map((id) => same.get(id)!.globalId)).toEqual(['A0', 'A0', 'A1', 'A1', 'S2']);
    expect([...new Set(same.values())].map(({ name }) => name)).toEqual(['Level 0', 'Level 1', 'Roof']);
    const place = { penetration: 'P-0001', run: null, storey: 'S1', system: 'KX' };
    expect(onStorey(place, same)).toEqual({ ...place, storey: 'A1' });
    expect(onStorey({ ...place, storey: null }, same).storey).toBeNull();
    expect(onStorey({ ...place, storey: 'unheard of' }, same).storey).toBe('unheard of');
  });

  it('are several at other heights, or of other names', () => {
    const apart = [storey('a', 'Level 1', 0), storey('b', 'Level 1', 500), storey('c', 'Level 2', 510)];
    expect([...sameStoreys(apart).values()].map(({ globalId }) => globalId)).toEqual(['a', 'b', 'c']);
    const near = [storey('a', 'Level 1', 0), storey('b', 'Level 1', 499.9)];
    expect([...sameStoreys(near).values()].map(({ globalId }) => globalId)).toEqual(['a', 'a']);
  });
});
