import { describe, expect, it } from 'vitest';
import type { Penetration } from '../../src/model.js';
import type { BriefChoices } from '../../src/rules/index.js';
import { choicesFor as choicesOf } from '../../src/rules/own-facts.js';
import type { TestedSystem } from '../../src/rules/tested-system.js';
import { servedBy } from '../../src/rules/whole-runs.js';
import { barrier, choicesFor, duct, NO_CHOICES, wrapped } from './factories.js';
import { shippedRules } from './rule-cases.js';

const [blanket] = shippedRules.systems as [TestedSystem];
/** The same, but for timber studs alone. */
const timber: TestedSystem = {
  ...blanket,
  id: 'timber',
  scope: { ...blanket.scope, barriers: [{ construction: 'timberStud', thicknessAtLeast: 90 }] },
  details: [{ ...blanket.details[0]!, constructions: ['timberStud'] }],
};
const systems = [blanket, timber];

const chosen = (choices: BriefChoices | undefined, changes: Partial<Penetration> = {}) => {
  const found = wrapped(changes);
  return choicesOf([found], { choices, systems, dampers: [] }).get(found.id)!.chosen.system;
};

const anyOf = (...testedSystems: string[]): BriefChoices => ({ ...NO_CHOICES, testedSystems });
const inTimber = { barrier: barrier({ construction: 'timberStud' }) };

describe('the tested system of a penetration', () => {
  it.each([
    [
      'the one that the brief names for the system',
      choicesFor({ testedSystem: 'timber', fixing: undefined }),
      {},
      'timber',
    ],
    [
      'of those that may be used the one that fits',
      anyOf('timber', 'demonstration-blanket'),
      {},
      'demonstration-blanket',
    ],
    ['of those that may be used the one that fits', anyOf('demonstration-blanket', 'timber'), inTimber, 'timber'],
    [
      'of equal ones the first',
      anyOf('timber', 'demonstration-blanket'),
      { barrier: barrier({ construction: 'unknown' }) },
      'timber',
    ],
    ['none without a brief', undefined, {}, undefined],
    ['none where the brief allows none', anyOf(), {}, undefined],
    ['none that no document holds', anyOf('another'), {}, undefined],
    [
      'none for a system that the brief does not list',
      { ...choicesFor({}), testedSystems: ['timber', 'demonstration-blanket'] },
      { duct: duct({ system: 'XX' }) },
      undefined,
    ],
  ])('%s', (_, choices, changes, id) => {
    expect(chosen(choices, changes)).toMatchObject(id === undefined ? { applied: false } : { id, applied: true });
    expect(chosen(choices, changes).id).toBe(id);
  });

  it('is applied only where its kind of protection is what is there', () => {
    const applied = (kind: Penetration['treatment']['kind']) =>
      chosen(choicesFor({}), { treatment: { ...wrapped().treatment, kind } }).applied;
    expect(['blanket', 'both', 'board', 'damper', 'none', 'unknown'].map((kind) => applied(kind as 'both'))).toEqual([
      true,
      true,
      false,
      false,
      false,
      false,
    ]);
  });

  it('is one of those along the rest of its run where only a part of it is there', () => {
    const found = wrapped({ duct: duct({ run: 'R-007' }), ...inTimber });
    const beside = (...used: string[]) => {
      const wholeRuns = { serves: new Map(), systems: new Map([['R-007', used]]) };
      const choices = anyOf('demonstration-blanket', 'timber');
      return choicesOf([found], { choices, systems, dampers: [], wholeRuns }).get(found.id)!.chosen.system.id;
    };
    expect(beside()).toBe('timber');
    expect(beside('timber')).toBe('timber');
    expect(beside('demonstration-blanket')).toBe('demonstration-blanket');
  });
});

describe('the compartments that a run serves', () => {
  it('are those of the whole run where only a part of it is there', () => {
    const part = new Map([
      ['R-001', ['Kitchen']],
      ['R-002', ['Office']],
      ['R-003', ['Hall']],
    ]);
    const serves = new Map([
      ['R-001', null],
      ['R-002', ['Office', 'Store']],
    ]);
    const served = servedBy(part, { serves, systems: new Map() });
    expect([...served]).toEqual([
      ['R-002', ['Office', 'Store']],
      ['R-003', ['Hall']],
    ]);
    expect(servedBy(part, undefined)).toBe(part);
  });
});
