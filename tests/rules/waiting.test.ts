import { describe, expect, it } from 'vitest';
import { type JudgeOptions, judge, loadRules } from '../../src/rules/index.js';
import {
  barrier,
  checkFields,
  crossings,
  document,
  duct,
  NO_GAPS,
  NOT_REQUIRED,
  penetration,
  rating,
  UNREADABLE,
  UNSTATED,
  wrapped,
} from './factories.js';
import { demonstrationBrief } from './protected.js';
import { shippedRules } from './rule-cases.js';

describe('facts missing at the barrier', () => {
  const unrated = barrier({ rating: UNSTATED });
  const three = crossings({
    penetrations: [1, 2, 3].map((n) =>
      penetration({ id: `P-000${n}`, key: `key-${n}`, barrier: unrated, opening: null, gaps: NO_GAPS }),
    ),
  });
  const findings = (options: JudgeOptions = {}) => judge(three, shippedRules, options).findings;

  it('are shown once, with how many penetrations wait', () => {
    const atBarrier = findings().filter(({ missing }) => missing.includes('barrier.rating') && missing.length === 1);
    expect(atBarrier.map(({ check, subject }) => [check, subject.type])).toEqual([
      ['review-possible', 'model'],
      ['barrier-rating-known', 'barrier'],
    ]);
    expect(atBarrier[1]?.message).toContain('wait for it: 3 of 3');
    expect(findings()).toHaveLength(2);
  });

  it('are counted where they are wanted', () => {
    const { checks } = judge(three, shippedRules);
    expect(checks.find(({ id }) => id === 'opening-modelled')?.outcomes.cantTell).toBe(3);
    expect(checks.find(({ id }) => id === 'gap-within-range')?.outcomes).toMatchObject({
      cantTell: 0,
      inapplicable: 6,
    });
  });

  it('are all listed when all are asked for, and no fewer wait', () => {
    const all = findings({ allFindings: true });
    expect(all.filter(({ check }) => check === 'opening-modelled')).toHaveLength(3);
    expect(all.find(({ check }) => check === 'barrier-rating-known')?.message).toContain('wait for it: 3 of 3');
  });

  it('are listed where no finding of the barrier says so', () => {
    const duration = rating({ state: 'durationOnly', text: '2 HR', integrity: null, insulation: null, duration: 120 });
    const rules = loadRules([
      {
        file: 'integrity.yaml',
        text: document([
          checkFields(),
          checkFields({ id: 'integrity', measure: 'barrier.rating.integrity', atMost: undefined, atLeast: 60 }),
        ]),
      },
    ]);
    const found = crossings({ penetrations: [penetration({ barrier: barrier({ rating: duration }) })] });
    expect(judge(found, rules).findings).toMatchObject([{ check: 'integrity', missing: ['barrier.rating.integrity'] }]);
  });

  it('are listed where something else is missing too', () => {
    const reason = (when: string, ...missing: string[]) => ({
      reason: missing[0]!.split('.')[1],
      when,
      missing,
      message: 'm',
    });
    const check = (id: string, each: string, ...cantTellWhen: ReturnType<typeof reason>[]) => {
      const {
        measure: _,
        atMost: __,
        message: ___,
        ...fields
      } = checkFields({ id, each, about: 'model', cantTellWhen });
      return fields;
    };
    const text = document([
      check('thickness', 'barrier', reason('!has(barrier.thickness)', 'barrier.thickness')),
      check('both', 'penetration', reason('barrier.thickness < 1', 'a.b'), reason('duct.diameter < 1', 'c.d')),
    ]);
    const rules = loadRules([{ file: 'both.yaml', text }]);
    const listed = (diameter: number | null) =>
      judge(
        crossings({ penetrations: [penetration({ barrier: barrier({ thickness: null }), duct: duct({ diameter }) })] }),
        rules,
      ).findings.map(({ check: id, missing }) => [id, missing]);
    expect(listed(200)).toEqual([['thickness', ['barrier.thickness']]]);
    expect(listed(null)).toHaveLength(2);
    expect(listed(null)).toContainEqual(['both', ['barrier.thickness', 'duct.diameter']]);
  });

  it('hide nothing of another barrier, and nothing that lacks more', () => {
    const both = crossings({
      penetrations: [
        penetration({ barrier: unrated }),
        penetration({ id: 'P-0002', key: 'key-2', barrier: barrier({ globalId: 'W2', name: 'Wall 2' }) }),
      ],
    });
    const listed = judge(both, shippedRules).findings.filter(({ subject }) => subject.type === 'penetration');
    expect(listed.map(({ check, subject }) => [check, subject.id])).toEqual([['damper-or-protection', 'P-0002']]);
    const ends = crossings({ penetrations: [penetration({ barrier: unrated, crossing: 'endsInside' })] });
    expect(judge(ends, shippedRules).findings.map(({ check }) => check)).toContain('crossing-complete');
  });
});

describe('facts missing at a penetration', () => {
  const listed = (...penetrations: ReturnType<typeof penetration>[]) =>
    judge(crossings({ penetrations }), shippedRules).findings.map(({ check, subject, missing }) => [
      check,
      subject.id,
      ...missing,
    ]);

  it('are shown once, by the check that judges by them', () => {
    expect(listed(penetration())).toEqual([['damper-or-protection', 'P-0001', 'penetration.treatment']]);
  });

  it('are shown at each penetration that lacks them, and with all else that it lacks', () => {
    const second = penetration({ id: 'P-0002', key: 'key-2', duct: duct({ system: null, material: 'unknown' }) });
    expect(listed(penetration(), second).sort()).toEqual([
      // A system that is not known may be any that a code speaks of.
      ['code-named', 'federation', 'brief.jurisdiction', 'brief.edition'],
      ['damper-or-protection', 'P-0001', 'penetration.treatment'],
      ['damper-or-protection', 'P-0002', 'penetration.treatment'],
      ['duct-not-combustible', 'P-0002', 'duct.material'],
      ['system-known', 'P-0002', 'duct.system'],
    ]);
  });

  it('a shape that is not known is said once, whatever waits for it', () => {
    const shapeless = { ...duct(), shape: 'unknown', width: null, height: null } as const;
    const stated = { ...shapeless, stated: { width: 600, height: 400, diameter: null } };
    const findings = judge(crossings({ penetrations: [wrapped({ duct: stated })] }), shippedRules, {
      brief: demonstrationBrief,
    }).findings;
    expect(findings.filter(({ missing }) => missing.includes('duct.shape')).map(({ check }) => check)).toEqual([
      'section-known',
    ]);
  });

  it('a brief that lists other systems is said once for each penetration', () => {
    const found = crossings({ penetrations: [wrapped({ duct: duct({ system: 'XX' }) })] });
    const { findings, checks } = judge(found, shippedRules, { brief: demonstrationBrief });
    const own = findings.filter(({ subject }) => subject.type === 'penetration');
    expect(own.map(({ check, missing }) => [check, missing])).toEqual([['system-known', ['brief.system']]]);
    expect(checks.find(({ id }) => id === 'treatment-integrity')?.outcomes.cantTell).toBe(1);
  });
});

describe('a barrier whose leaves differ from crossing to crossing', () => {
  // One wall, passed alone and together with a second leaf whose rating cannot be read.
  const leaf = { leaves: [{ model: 'm2', globalId: 'W2' }], rating: UNREADABLE };
  const at = (id: string, changes: Parameters<typeof barrier>[0]) =>
    penetration({ id, key: id, barrier: barrier(changes), opening: null });
  const outcomes = (penetrations: ReturnType<typeof at>[], check: string) =>
    judge(crossings({ penetrations }), shippedRules, { allFindings: true })
      .findings.filter((finding) => finding.check === check)
      .map(({ outcome, subject }) => [outcome, subject.id]);

  it.each([
    ['first', [at('P-0001', {}), at('P-0002', leaf)], 'P-0001', 'P-0002'],
    ['last', [at('P-0001', leaf), at('P-0002', {})], 'P-0002', 'P-0001'],
  ] as const)('each crossing is judged by its own rating, the stated one being %s', (_, both, stated, unreadable) => {
    expect(outcomes([...both], 'opening-modelled')).toEqual([
      ['failed', stated],
      ['cantTell', unreadable],
    ]);
    expect(outcomes([...both], 'barrier-rating-known')).toEqual([['cantTell', 'W1']]);
  });

  it.each([
    ['not known counts before rated', {}, leaf, 'cantTell'],
    ['rated counts before not required', {}, { rating: NOT_REQUIRED }, 'failed'],
  ] as const)('between two neighbours, %s', (_, a, b, outcome) => {
    for (const [first, second] of [
      [a, b],
      [b, a],
    ]) {
      const pair = [
        { ...at('P-0001', first), neighbours: [{ penetration: 'P-0002', distance: 80 }] },
        at('P-0002', second),
      ];
      expect(outcomes(pair, 'separation')).toEqual([[outcome, 'P-0001']]);
    }
  });
});
