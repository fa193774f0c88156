/** The lines of a scope against the checks that judge by it: they may never say different things. */
import { describe, expect, it } from 'vitest';
import type { Finding, Penetration, TestedFor } from '../../src/model.js';
import { judge } from '../../src/rules/index.js';
import { LINE_KINDS } from '../../src/rules/scope-line-kinds.js';
import { barrier, choicesFor, crossings, duct, rating, wrapped } from './factories.js';
import { demonstrationBrief, protectedCrossings } from './protected.js';
import { shippedRules } from './rule-cases.js';

const OUTCOME = { met: 'passed', missed: 'failed', unknown: 'cantTell' } as const;

const outcomesOf = (check: string, id: string, all: readonly Finding[]) =>
  all.filter((one) => one.check === check && one.subject.id === id).map(({ outcome }) => outcome);

describe('the scope line by line', () => {
  it('has a check for each line, and every check is one', () => {
    const checks = new Set(shippedRules.checks.map(({ definition }) => definition.id));
    for (const { check } of LINE_KINDS) expect(checks).toContain(check);
  });

  it('asks the same of the margin as its check; a gap to the duct counts what the duct is measured to', () => {
    const asked = new Map(shippedRules.checks.map(({ definition: { id, tolerances } }) => [id, tolerances]));
    for (const { name, check, tolerances } of LINE_KINDS)
      expect(tolerances, name).toEqual(asked.get(check)?.map((one) => one.replace(/^gap\./, 'duct.')));
  });

  it('calls each line by what is measured, not by the name of a fact', () => {
    const { tested } = judge(protectedCrossings, shippedRules, { brief: demonstrationBrief });
    const lines = tested.flatMap(({ chosen }) => chosen?.scope ?? []);
    const words = new Map(lines.map(({ name, what }) => [name, what]));
    expect(words.get('width')).toBe('the width of the duct');
    expect([...words.values()].filter((what) => /^\w+(\.\w+)+$/.test(what))).toEqual([]);
  });

  it('says what the checks say, at every penetration', () => {
    const options = { brief: demonstrationBrief, allFindings: true };
    const { tested, findings } = judge(protectedCrossings, shippedRules, options);
    const seen = { met: 0, missed: 0, unknown: 0 };
    for (const { penetration, chosen } of tested)
      for (const { check, name, outcome, measured, limit, margin } of chosen?.scope ?? []) {
        seen[outcome]++;
        const own = outcomesOf(check, penetration, findings);
        const where = `${penetration} ${name}`;
        // Gaps are judged side by side: the worst of them is one of the two lines.
        if (check === 'gap-within-tested-range') {
          if (outcome !== 'unknown') expect(own, where).toContain(OUTCOME[outcome]);
          continue;
        }
        expect([...new Set(own)], where).toEqual([OUTCOME[outcome]]);
        const finding = findings.find((one) => one.check === check && one.subject.id === penetration);
        if (typeof measured === 'number') expect(finding, where).toMatchObject({ measured, limit, margin });
      }
    expect(Math.min(seen.met, seen.missed, seen.unknown)).toBeGreaterThan(1);
  });
});

const at = (changes: Partial<Penetration>, choices = choicesFor({})): TestedFor =>
  judge(crossings({ penetrations: [wrapped(changes)] }), shippedRules, { brief: { demonstration: true, choices } })
    .tested[0]!;

describe('what is chosen', () => {
  it('is said with its figures, and who settled it', () => {
    const settled = at({});
    expect(settled.chosen).toMatchObject({
      ...{ system: 'demonstration-blanket', detail: 'framed-wall', fixing: 'pins', layers: 2, by: 'brief' },
      tightest: { name: 'narrowestGap' },
    });
    const free = at(
      {},
      {
        ...choicesFor({ testedSystem: undefined, fixing: undefined }),
        testedSystems: ['demonstration-board', 'demonstration-blanket'],
      },
    );
    expect(free.chosen).toMatchObject({ system: 'demonstration-blanket', fixing: 'pins', by: 'review' });
  });

  it('is what the brief pins at one penetration', () => {
    const pinned = [{ penetration: wrapped().tag, testedSystem: 'demonstration-blanket', fixing: 'straps' }];
    expect(at({}, { ...choicesFor({}), pinned }).chosen).toMatchObject({ fixing: 'straps', by: 'brief' });
    expect(at({}, { ...choicesFor({}), pinned: [{ ...pinned[0]!, penetration: 'ZZZZ-9' }] }).chosen?.fixing).toBe(
      'pins',
    );
  });

  it('lists what would fit, the most margin first', () => {
    const { feasible, nearest } = at({});
    expect(feasible.map(({ system, detail, layers }) => [system, detail, layers])).toEqual([
      ['demonstration-blanket', 'framed-wall', 2],
    ]);
    expect(nearest).toEqual([]);
  });

  it('is met, and fits, only where the margin holds what is built and measured', () => {
    // 30 mm of gap, tested from 10 to 50 mm: 20 mm inside.
    const under = (siteTolerance: number) => at({}, { ...choicesFor({}), siteTolerance });
    expect(under(20).feasible.length).toBe(1);
    expect(under(20.1).feasible).toEqual([]);
    expect(under(20.1).nearest[0]!.unknown.map(({ name, margin }) => [name, margin])).toEqual([
      ['narrowestGap', 20],
      ['widestGap', 20],
    ]);
  });

  it('says where nothing fits what comes nearest, with every limit that it misses', () => {
    const { feasible, nearest } = at({
      duct: duct({ width: 3700, height: 600 }),
      barrier: barrier({ construction: 'timberStud' }),
    });
    expect(feasible).toEqual([]);
    expect(nearest.length).toBe(3);
    const [first] = nearest;
    expect(first!.misses.map(({ name, measured, limit, margin }) => [name, measured, limit, margin])).toContainEqual([
      ...['width', 3700, { atMost: 3600 }, -100],
    ]);
    const counts = nearest.map(({ misses }) => misses.length);
    expect(counts).toEqual([...counts].sort((a, b) => a - b));
    for (const { misses, unknown } of nearest) expect(misses.length + unknown.length).toBeGreaterThan(0);
  });

  it('says so of a rating that no number of layers reaches', () => {
    const { nearest } = at({ barrier: barrier({ rating: rating({ integrity: 240, insulation: 240 }) }) });
    expect(nearest[0]!.misses.map(({ name, margin }) => [name, margin])).toEqual([
      ['integrity', -120],
      ['insulation', -120],
    ]);
  });
});
