/** The strategy table of a run from the kitchen that it serves through the corridor that it passes. */
import { describe, expect, it } from 'vitest';
import type { Crossings, DuctProtection, Penetration, StrategyRow } from '../../src/model.js';
import { judge } from '../../src/rules/index.js';
import { compartment, crossings, run, stretch, stretchPart, treated, wrapped } from './factories.js';
import { demonstrationBrief, protectedByTwo } from './protected.js';
import { shippedRules } from './rule-cases.js';

const BARE: DuctProtection = { kind: 'none', evidence: null, layers: null, integrity: null, insulation: null };
const SERVED = stretch({ serves: [{ model: 'm1', globalId: 'T1' }] });

function through(parts: Parameters<typeof stretchPart>[0][], passed: Partial<Penetration> = {}): Crossings {
  const behind = stretch({ id: 'R-001.2', compartment: 'C-0002', parts: parts.map((part) => stretchPart(part)) });
  return crossings({
    penetrations: [wrapped(passed)],
    runs: [run({ stretches: [SERVED, behind] })],
    compartments: [compartment({ name: 'Kitchen' }), compartment({ id: 'C-0002', name: 'Corridor' })],
  });
}
const tableOf = (found: Crossings, brief = demonstrationBrief) => judge(found, shippedRules, { brief });
const fromModel = ({ reasons }: StrategyRow) =>
  reasons.filter(({ source }) => source === 'the model').map(({ says }) => says);

describe('one run through one barrier', () => {
  const RISER = { globalId: 'D9', name: 'Riser', length: 7000, protection: BARE };

  it('is told with what is asked, what is there, the longest first, what would do, and what contradicts it', () => {
    const { strategy, findings } = tableOf(through([{}, RISER]));
    expect(strategy).toMatchObject([
      {
        ...{ run: 'R-001', part: 1, mustResist: true, required: { integrity: 120, insulation: 120 } },
        ...{ serves: ['C-0001'], passes: ['C-0002'], reachesOutside: false, stretches: ['R-001.1', 'R-001.2'] },
        crossings: [{ penetration: 'P-0001', treatment: 'blanket' }],
        there: [
          { kind: 'none', evidence: null, length: 7000 },
          { kind: 'blanket', evidence: 'a drawing', length: 3000 },
        ],
        testedSystem: { id: 'demonstration-blanket', fixing: 'pins' },
        wouldFit: [{ system: 'demonstration-blanket', status: 'demonstration' }],
        lapses: [{ kind: 'bare', length: 7000, compartments: ['C-0002'], doubtful: false }],
      },
    ]);
    const failed = findings.filter(({ outcome, subject }) => outcome === 'failed' && subject.id === 'R-001');
    expect(strategy[0]!.contradictions).toEqual(failed.map(({ id }) => id));
    expect(failed.map(({ check }) => check)).toContain('protection-continuous');
  });

  it('says what the model shows to be asked for', () => {
    expect(fromModel(tableOf(through([{}])).strategy[0]!).slice(1)).toEqual([
      'it serves Kitchen',
      'it passes Corridor without serving it',
      'it passes Wall 1 without a fire damper',
    ]);
  });

  it('has a row for each side of a damper, neither of which must resist', () => {
    const { strategy } = tableOf(through([{}, RISER], treated('damper')));
    expect(strategy.map(({ part, mustResist, stretches }) => [part, mustResist, stretches])).toEqual([
      [1, false, ['R-001.1']],
      [2, false, ['R-001.2']],
    ]);
    expect(strategy.map(({ testedSystem, lapses, there }) => [testedSystem, lapses, there])).toEqual([
      [null, [], []],
      [null, [], []],
    ]);
    expect(fromModel(strategy[0]!).slice(1)).toEqual(['it serves Kitchen']);
  });

  it('has a part between dampers that must resist only where the brief asks for it always', () => {
    const found = through([{}, RISER], treated('damper'));
    const asking = (resists: 'always' | 'whereUndampered') => ({
      ...demonstrationBrief,
      choices: {
        ...demonstrationBrief.choices,
        systems: demonstrationBrief.choices.systems.map((one) => ({ ...one, resists })),
      },
    });
    const resisting = (from: Crossings, resists: 'always' | 'whereUndampered') =>
      tableOf(from, asking(resists)).strategy.map(({ mustResist }) => mustResist);
    expect(resisting(found, 'whereUndampered')).toEqual([false, false]);
    // In the kitchen, which it serves, nothing of it has to.
    expect(resisting(found, 'always')).toEqual([false, true]);
  });

  it('lists what it passes by id', () => {
    const found = through([{}]);
    const [one] = found.runs;
    const further = stretch({ id: 'R-001.3', compartment: 'C-0001A' });
    const runs = [{ ...one!, stretches: [...one!.stretches, further] }];
    expect(tableOf({ ...found, runs }).strategy[0]!.passes).toEqual(['C-0001A', 'C-0002']);
  });

  it('adds up what is there by kind and evidence', () => {
    const { strategy } = tableOf(through([{}, { globalId: 'D8', length: 500.04 }]));
    expect(strategy[0]!.there).toEqual([{ kind: 'blanket', evidence: 'a drawing', length: 3500 }]);
  });
});

it('names no tested system where barriers of one run have two', () => {
  const { crossings: found, brief } = protectedByTwo('board', 'demonstration-board');
  const { strategy } = judge(found, shippedRules, { brief });
  expect(strategy.map(({ testedSystem }) => testedSystem)).toEqual([null]);
  expect(strategy[0]!.crossings.map(({ treatment }) => treatment)).toEqual(['blanket', 'board']);
});
