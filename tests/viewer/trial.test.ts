import { describe, expect, it } from 'vitest';
import type { Report } from '../../src/report/schema.js';
import { choiceName, choiceWords, materialChanges, movedKeys, outcomeChanges } from '../../viewer/state/trial.js';
import { NOTHING_READ, withFile } from '../../viewer/work/read-so-far.js';
import { aTakeoff } from '../quantify/made-takeoff.js';
import { aReport } from '../report/factories.js';

describe('what a trial changes', () => {
  it('is told by kind of material, only where another quantity would be built in', () => {
    const takeoff = aTakeoff();
    const report = aReport({ takeoff });
    expect(materialChanges(report, report)).toEqual([]);
    const without: Report = { ...report, takeoff: null };
    const all = materialChanges(report, without);
    const kinds = new Set(takeoff.materials.map(({ kind }) => kind));
    expect(new Set(all.map(({ before }) => before?.kind))).toEqual(kinds);
    expect(all.every(({ after }) => after === null)).toBe(true);
    const pin = takeoff.materials.find(({ measure }) => measure === 'pieces')!;
    const total = takeoff.totals.find(({ by, material }) => by === 'project' && material === pin.id)!;
    const more: Report = {
      ...report,
      takeoff: {
        ...takeoff,
        totals: takeoff.totals.map((one) => (one === total ? { ...one, pieces: one.pieces! + 5 } : one)),
      },
    };
    const [change, ...others] = materialChanges(report, more);
    expect(others).toEqual([]);
    expect(change!.after!.sum! - change!.before!.sum!).toBe(5);
  });

  it('leaves out outcomes that stay, but for those that decide', () => {
    const before = { passed: 1, failed: 2, cantTell: 3, inapplicable: 4, untested: 0 };
    const after = { ...before, failed: 1, inapplicable: 5 };
    expect(outcomeChanges({ before, after }).map((one) => [one.outcome, one.before, one.after])).toEqual([
      ['failed', 2, 1],
      ['cantTell', 3, 3],
      ['passed', 1, 1],
      ['inapplicable', 4, 5],
    ]);
  });

  it('names each finding once', () => {
    const moved = (key: string) => ({ key }) as never;
    expect(movedKeys({ goes: [moved('a'), moved('b')], comes: [moved('b'), moved('c')] })).toEqual(['b', 'c', 'a']);
  });

  it('is said in words', () => {
    expect(choiceName('systems."KX.1".testedSystem')).toBe('systems, KX.1, tested system');
    expect(choiceName('siteTolerance')).toBe('site tolerance');
    expect(choiceWords({ testedSystem: 'x', layers: 2, modelled: true })).toBe(
      'tested system x, layers 2, modelled yes',
    );
    expect(choiceWords(null)).toBe('left out');
  });
});

describe('what is read so far', () => {
  it('adds storeys of one name and height together, from the top down', () => {
    const storey = (name: string, elevation: number) => ({ globalId: name + elevation, name, elevation });
    const ducts = [storey('Level 1', 0), storey('Level 2', 4000), undefined].map((at) => ({ storey: at }));
    const walls = [{ storey: storey('level 1 ', 0.2) }];
    const first = withFile(NOTHING_READ, 'a.ifc', { airElements: ducts, barriers: [] });
    const { files, storeys } = withFile(first, 'b.ifc', { airElements: [], barriers: walls });
    expect(files).toEqual([
      { name: 'a.ifc', ducts: 3, barriers: 0 },
      { name: 'b.ifc', ducts: 0, barriers: 1 },
    ]);
    expect(storeys).toEqual([
      { name: 'Level 2', elevation: 4000, ducts: 1, barriers: 0 },
      { name: 'Level 1', elevation: 0, ducts: 1, barriers: 1 },
    ]);
  });
});
