import { describe, expect, it } from 'vitest';
import { choosableOf } from '../../src/review/choosable.js';
import { assumeChoices, choiceAt, parseAssumption } from '../../src/rules/index.js';
import {
  ChoiceError,
  choiceAssumption,
  commonChoices,
  penetrationsIn,
  standing,
  testedSystemAssumptions,
  together,
} from '../../viewer/sheet/try.js';
import { aDuct, aPenetration, aReport } from '../report/factories.js';
import { demoBrief, rules } from '../shipped-rules.js';

const BOARD = 'demonstration-board';
const known = choosableOf(demoBrief.choices, rules);

describe('a tested system that is tried', () => {
  it('is settled for these penetrations, and others stay as they are settled', () => {
    const pinned = [{ penetration: 'A1B2-3', testedSystem: 'demonstration-blanket', fixing: 'pins' }];
    const assumed = assumeChoices(
      demoBrief,
      testedSystemAssumptions(BOARD, ['K7F2-9', 'C4D5-6'], { ...demoBrief.choices, pinned }),
      rules,
    );
    expect(assumed.choices.pinned).toEqual([
      ...pinned,
      { penetration: 'K7F2-9', testedSystem: BOARD },
      { penetration: 'C4D5-6', testedSystem: BOARD },
    ]);
    expect(assumed.choices.systems).toEqual(demoBrief.choices.systems);
  });

  it('takes the place of what the brief settles for the same penetration', () => {
    const before = { ...demoBrief.choices, pinned: [{ penetration: 'K7F2-9', testedSystem: 'demonstration-blanket' }] };
    const { choices } = assumeChoices(demoBrief, testedSystemAssumptions(BOARD, ['K7F2-9'], before), rules);
    expect(choices.pinned).toEqual([{ penetration: 'K7F2-9', testedSystem: BOARD }]);
  });

  it('is the only one everywhere, and takes fixings and details of others away', () => {
    const { choices } = assumeChoices(demoBrief, testedSystemAssumptions(BOARD, null, demoBrief.choices), rules);
    expect(choices.testedSystems).toEqual([BOARD]);
    expect(choices.systems).toHaveLength(demoBrief.choices.systems.length);
    for (const { testedSystem, fixing, detail } of choices.systems)
      expect([testedSystem, fixing, detail]).toEqual([undefined, undefined, undefined]);
    expect(choices.systems.map(({ dampers }) => dampers)).toEqual(
      demoBrief.choices.systems.map(({ dampers }) => dampers),
    );
  });

  it('holds for a penetration, for the run of its duct, or for all', () => {
    const duct = (run: string) => ({ duct: aDuct({ run }) });
    const { penetrations } = aReport({
      penetrations: [aPenetration(1, duct('R-001')), aPenetration(2, duct('R-001')), aPenetration(3, duct('R-002'))],
    });
    const [first] = penetrations;
    const tags = (scope: 'penetration' | 'run' | 'all') => penetrationsIn(scope, first!, penetrations).length;
    expect([tags('penetration'), tags('run'), tags('all')]).toEqual([1, 2, 3]);
  });

  it('can be any for which there is a document', () => {
    expect(known.systems.map(({ id }) => id)).toEqual(rules.systems.map(({ id }) => id));
    for (const { id } of known.systems)
      expect(() =>
        assumeChoices(demoBrief, testedSystemAssumptions(id, ['K7F2-9'], known.choices), rules),
      ).not.toThrow();
  });
});

describe('a choice that is tried', () => {
  const offered = commonChoices(demoBrief.choices, 'KX');

  it('shows what the brief says now', () => {
    for (const { name, now } of offered) {
      const said = choiceAt(demoBrief, name);
      expect(now, name).toEqual(Array.isArray(said) && said.length === 0 ? undefined : said);
    }
    expect(offered.find(({ name }) => name === 'systems."KX".integrity')?.now).toBe(120);
  });

  it.each(offered.map((choice) => [choice.name, choice] as const))(
    'is taken by the brief: %s',
    (name, { unit, values }) => {
      const text = values ? String(values.at(-1)) : unit === null ? 'Somewhere' : '5';
      const assumption = choiceAssumption(name, text);
      // The command line reads the same of the same text.
      expect(assumption).toEqual(parseAssumption(`${name}=${text}`));
      const assumed = assumeChoices(demoBrief, [assumption], rules);
      expect([choiceAt(assumed, name)].flat()).toEqual([assumption.value].flat());
      // An edition alone says nothing, so the brief does not go without its jurisdiction.
      if (name !== 'jurisdiction')
        expect(() => assumeChoices(demoBrief, [choiceAssumption(name, ' ')], rules)).not.toThrow();
    },
  );

  it('speaks of a system only where its name alone tells which entry is meant', () => {
    const names = (system: string | null) => commonChoices(demoBrief.choices, system).map(({ name }) => name);
    expect(names('kx')).toContain('systems."kx".dampers');
    expect(names('no such system').filter((name) => name.startsWith('systems'))).toEqual([]);
    expect(names(null).filter((name) => name.startsWith('systems'))).toEqual([]);
  });

  it('is refused in one line where it has no name or can not be read', () => {
    for (const [name, text] of [
      ['', '5'],
      ['siteTolerance', '[1, 2'],
      ['edition', '{a: [b}'],
    ] as const)
      expect(() => choiceAssumption(name, text)).toThrow(ChoiceError);
    expect(() => choiceAssumption('siteTolerance', '[1, 2')).toThrow(/^[^\n]+$/);
  });
});

describe('several trials together', () => {
  it('hold all, the last of each name, whole lists first', () => {
    const first = together(
      [],
      [choiceAssumption('siteTolerance', '5'), choiceAssumption('systems.KX.dampers', 'allowed')],
    );
    const second = together(first, testedSystemAssumptions(BOARD, null, demoBrief.choices));
    const all = together(second, [choiceAssumption('siteTolerance', '8')]);
    const { choices } = assumeChoices(demoBrief, all, rules);
    expect(choices.siteTolerance).toBe(8);
    expect(choices.testedSystems).toEqual([BOARD]);
    expect(choices.systems.find(({ system }) => system === 'KX')?.dampers).toBe('allowed');
  });

  it('add to what was pinned by an earlier one', () => {
    const first = testedSystemAssumptions(BOARD, ['A'], known.choices);
    const both = together(first, testedSystemAssumptions(BOARD, ['B'], standing(known, first)));
    expect(assumeChoices(demoBrief, both, rules).choices.pinned.map(({ penetration }) => penetration)).toEqual([
      'A',
      'B',
    ]);
  });
});
