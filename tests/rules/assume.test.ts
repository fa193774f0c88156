import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Assumption,
  AssumptionError,
  assumeChoices,
  choiceAt,
  loadBrief,
  type ProjectBrief,
  parseAssumption,
} from '../../src/rules/index.js';
import { CHOICES } from '../../src/rules/project-brief.js';
import { demoBrief, rules } from '../shipped-rules.js';

const brief = loadBrief(
  {
    file: 'brief.yaml',
    text: `kind: project-brief
id: p
version: "1"
choices:
  room: { working: 80, hands: 300 }
  edition: Code 1
  jurisdiction: Here
  systems:
    - { system: KX, dampers: never, testedSystem: demonstration-blanket, fixing: pins }
    - { system: "Supply 1.2", dampers: allowed }
    - { systemType: EXHAUST }
  services:
    - { service: kitchenExhaust, fire: inside }
  testedSystems: [demonstration-blanket, demonstration-board]
`,
  },
  rules,
);
const assumed = (...texts: string[]) => assumeChoices(brief, texts.map(parseAssumption), rules).choices;
const refusal = (...texts: string[]): string => {
  try {
    assumed(...texts);
  } catch (error) {
    expect(error).toBeInstanceOf(AssumptionError);
    // What stands before the message where it is printed.
    expect(String(error)).toMatch(/^AssumptionError: /);
    return (error as Error).message;
  }
  throw new Error(`${texts.join(' ')} was taken`);
};

describe('a choice that is assumed', () => {
  it.each<[string, (choices: ProjectBrief['choices']) => unknown, unknown]>([
    ['siteTolerance=5', (c) => c.siteTolerance, 5],
    ['choices.siteTolerance=5', (c) => c.siteTolerance, 5],
    ['room.working=100', (c) => c.room, { working: 100, hands: 300 }],
    ['room.working=', (c) => c.room, { hands: 300 }],
    ['room={ hands: 250 }', (c) => c.room, { hands: 250 }],
    ['room.shaftsEntered=[riser]', (c) => c.room?.shaftsEntered, ['riser']],
    ['supports.rod=M12', (c) => c.supports, { rod: 'M12', rods: 2 }],
    ['systems.KX.fixing=straps', (c) => c.systems[0]?.fixing, 'straps'],
    ['systems.kx.fixing=', (c) => c.systems[0]?.fixing, undefined],
    ['systems."Supply 1.2".dampers=never', (c) => c.systems[1]?.dampers, 'never'],
    ['systems.EXHAUST.service=smokeExhaust', (c) => c.systems[2]?.service, 'smokeExhaust'],
    ['systems.3.service=smokeExhaust', (c) => c.systems[2]?.service, 'smokeExhaust'],
    ['systems.KX=', (c) => c.systems.map(({ system }) => system), ['Supply 1.2', undefined]],
    ['services.kitchenExhaust.fire=both', (c) => c.services[0]?.fire, 'both'],
    ['testedSystems.demonstration-board=', (c) => c.testedSystems, ['demonstration-blanket']],
    ['edition=[Code 1, Code 2]', (c) => c.edition, ['Code 1', 'Code 2']],
  ])('%s', (text, at, expected) => {
    expect(at(assumed(text))).toEqual(expected);
  });

  it('leaves the brief, and all other choices and facts, as they were', () => {
    const before = structuredClone(brief);
    const { siteTolerance, ...rest } = assumed('siteTolerance=5');
    expect([siteTolerance, brief]).toEqual([5, before]);
    expect(rest).toEqual(brief.choices);
  });

  it('may be one of several that only together make sense', () => {
    expect(refusal('systems."Supply 1.2".fixing=pins')).toMatch(/a fixing belongs to a tested system/);
    const both = assumed('systems."Supply 1.2".fixing=pins', 'systems."Supply 1.2".testedSystem=demonstration-blanket');
    expect(both.systems[1]).toMatchObject({ fixing: 'pins', testedSystem: 'demonstration-blanket' });
  });

  it('may be one of the default brief', () => {
    expect(assumeChoices(undefined, [parseAssumption('headMovement=15')]).choices.headMovement).toBe(15);
    expect(choiceAt(undefined, 'headMovement')).toBeUndefined();
    expect(choiceAt(brief, 'systems.KX.fixing')).toBe('pins');
  });

  it('that is what the brief says already changes nothing', () => {
    for (const one of [brief, demoBrief]) {
      const all = CHOICES.map((name): Assumption => ({ name, value: choiceAt(one, name) ?? null }));
      expect(assumeChoices(one, all, rules)).toEqual(one);
    }
  });
});

describe('what can not be assumed is refused in one line', () => {
  it.each([
    ['facts.supports={}', /"facts\.supports" is a fact: the models would have to be read again/],
    ['protectionModelled=true', /is a fact: the models would have to be read again/],
    ['demonstration=true', /"demonstration" is no choice .* only choices can be assumed/],
    ['sitTolerance=5', /there is no choice "sitTolerance"; perhaps you meant "siteTolerance"; known: jurisdiction, /],
    ['room.workin=5', /assuming room\.workin: unknown key "workin"; perhaps you meant "working"/],
    ['systems.KY.fixing=pins', /no entry "KY" there; perhaps you meant "KX"; known: KX, Supply 1\.2, EXHAUST/],
    ['systems.9.fixing=pins', /no entry "9" there/],
    ['access.AX.spacing=3', /no entry "AX" there; known: none; assume the whole list/],
    ['systems.KX.fixing=pin', /has no fixing "pin"; perhaps you meant "pins"/],
    ['testedDampers=[nothing]', /no rule document holds a tested damper "nothing"/],
    ['siteTolerance=abc', /expected number/],
    ['siteTolerance=-1', /assuming siteTolerance/],
    ['siteTolerance=500', /assuming siteTolerance/],
    ['siteTolerance.x=5', /"siteTolerance": expected number/],
    ['room.working.x=5', /what stands before "x" is one value/],
    ['siteTolerance=[1', /assuming siteTolerance: this is not valid YAML/],
    ['room..working=5', /is no name of a choice/],
    ['.room=5', /is no name of a choice/],
    ['siteTolerance', /is no assumption; write NAME=VALUE/],
    ['=5', /is no assumption/],
    ['__proto__.x=5', /there is no choice "__proto__"/],
    ['room.__proto__=5', /assuming room/],
  ])('%s', (text, message) => {
    const said = refusal(text);
    expect(said).toMatch(message);
    expect(said).not.toMatch(/\n/);
  });

  it('not for spaces round the name and the value', () => {
    expect(parseAssumption(' siteTolerance = 5 ')).toEqual({ name: 'siteTolerance', value: 5 });
  });

  it('whatever is written', () => {
    const text = fc.oneof(
      fc.string(),
      fc.tuple(fc.constantFrom(...CHOICES), fc.string(), fc.string()).map(([a, b, c]) => `${a}.${b}=${c}`),
    );
    fc.assert(
      fc.property(text, (one) => {
        try {
          expect(assumed(one)).toBeDefined();
        } catch (error) {
          expect(error).toBeInstanceOf(AssumptionError);
        }
      }),
      { numRuns: 1500, seed: 20260101 },
    );
  });
});
