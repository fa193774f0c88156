/**
 * A met limit holds what is built and how exactly it was measured. Truth is closed form, in whole tenths of a millimetre.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Penetration } from '../../src/model.js';
import { evaluateCheck } from '../../src/rules/evaluate.js';
import { judge } from '../../src/rules/index.js';
import { within } from '../../src/rules/limit.js';
import {
  checkFields,
  choicesFor,
  crossings,
  document,
  duct,
  EVIDENCE,
  gaps,
  penetration,
  rulesOf,
} from './factories.js';
import { refusal } from './refusal.js';
import { shippedRules } from './rule-cases.js';

const GAP = {
  each: 'gap',
  measure: 'gap.value',
  atLeast: 10,
  atMost: 50,
  unit: 'mm',
  tolerances: ['site', 'gap.measuredTo'],
  remedy: { failed: 'Change it by {by}.' },
  message: { failed: '{measured}, {by} outside {limit}.', cantTell: 'Not known.' },
};
const TESTED = { status: 'tested', evidence: EVIDENCE };
const tested = rulesOf({ ...GAP, basis: { source: 's', status: 'tested' } }, TESTED);
const [check] = tested.checks;
const mesh = (sectionResidual: number | null) => duct({ sectionFrom: 'mesh', sectionResidual });

const judged = (rules: typeof tested, siteTolerance: number | undefined, changes: Partial<Penetration>) =>
  judge(crossings({ penetrations: [penetration(changes)] }), rules, {
    brief: { demonstration: false, choices: { ...choicesFor(), siteTolerance } },
    allFindings: true,
  }).findings;
const topGap = (top: number) =>
  gaps({ top, bottom: 30, left: 30, right: 30, min: Math.min(30, top), max: Math.max(30, top) });
const top = (rules: typeof tested, siteTolerance: number | undefined, mm: number, section = mesh(0.8)) =>
  judged(rules, siteTolerance, { gaps: topGap(mm), duct: section }).find(({ side }) => side === 'top');

describe('the margin', () => {
  it('is said with all that it would have to hold, and by how much that is missed', () => {
    expect(top(tested, 5, 12)).toMatchObject({
      ...{ outcome: 'cantTell', wouldBe: null, measured: 12, margin: 2, missing: [] },
      tolerance: { site: 5, measuring: 0.8 },
      message: expect.stringContaining(
        '12 mm, inside the limit (10 to 50 mm) by 2 mm, but the site tolerance is 5 mm and the section is measured from a mesh to 0.8 mm.',
      ),
      remedy:
        'Bring it 3.8 mm further inside the limit, or build to a smaller tolerance (project brief, siteTolerance), or draw the duct as a swept profile, which is measured exactly.',
    });
  });

  it('that no value can have is not asked for', () => {
    expect(top(tested, 21, 30, duct({}))?.remedy).toBe(
      'No value holds both limits; choose another detail, or build to a smaller tolerance (project brief, siteTolerance).',
    );
  });

  it.each([
    ['both together, to the tenth', 5, 15.8, mesh(0.8), 'passed'],
    ['a tenth less', 5, 15.7, mesh(0.8), 'cantTell'],
    ['from above too', 5, 44.3, mesh(0.8), 'cantTell'],
    ['a profile is measured exactly', 5, 15, duct({}), 'passed'],
    ['on the limit, with nothing to hold', undefined, 10, duct({}), 'passed'],
    ['on the limit, from a mesh', undefined, 10, mesh(0.1), 'cantTell'],
    ['outside by less than the tolerance stays outside', 5, 9.9, duct({}), 'failed'],
    ['outside stays outside, however it was measured', 5, 9.9, mesh(null), 'failed'],
  ] as const)('%s', (_, siteTolerance, mm, section, outcome) => {
    expect(top(tested, siteTolerance, mm, section)?.outcome).toBe(outcome);
  });

  it('that common practice meets without it is no would-be pass', () => {
    const usual = rulesOf(GAP);
    expect(top(usual, 5, 15.8)).toMatchObject({ outcome: 'cantTell', wouldBe: 'passed' });
    expect(top(usual, 5, 15.7)).toMatchObject({ outcome: 'cantTell', wouldBe: null });
  });

  it('of which it is not known how exactly was measured can not be told', () => {
    expect(top(tested, 0, 30, mesh(null))).toMatchObject({
      outcome: 'cantTell',
      missing: ['duct.shape'],
      measured: 30,
    });
  });

  it('a remedy ends inside the limit by it', () => {
    expect(top(tested, 5, 4)).toMatchObject({
      message: '4 mm, 6 mm outside 10 to 50 mm.',
      remedy: 'Change it by 11.8 mm.',
    });
    expect(within({ atLeast: 10, atMost: 50 }, { site: 5, measuring: 0.8 })).toEqual({ atLeast: 15.8, atMost: 44.2 });
  });

  it('beside another duct holds how exactly either was measured', () => {
    const pair = (first: number, second: number) => [
      penetration({ duct: mesh(first), gaps: { ...topGap(30), facing: { top: 'P-0002' } } }),
      penetration({ id: 'P-0002', key: 'other', duct: mesh(second) }),
    ];
    const { findings } = judge(crossings({ penetrations: pair(0.8, 0.4) }), tested, { allFindings: true });
    expect(findings.find(({ side, subject }) => side === 'top' && subject.id === 'P-0001')?.tolerance).toEqual({
      site: 0,
      measuring: 1.2,
    });
  });

  it('passes just where whole tenths of a millimetre say so, and more tolerance never makes better', () => {
    const rank = { passed: 0, cantTell: 1, failed: 2 } as const;
    const outcome = (value: number, site: number, measuredTo: number) =>
      evaluateCheck(
        check!,
        { gap: { value: value / 10, measuredTo: measuredTo / 10 } },
        { demonstration: false, siteTolerance: site / 10 },
      )[0]!.outcome as keyof typeof rank;
    const tenths = (max: number) => fc.integer({ min: 0, max });
    fc.assert(
      fc.property(tenths(600), tenths(300), tenths(100), tenths(50), (value, site, measured, more) => {
        const least = Math.min(value - 100, 500 - value);
        const truth = least < 0 ? 'failed' : least >= site + measured ? 'passed' : 'cantTell';
        expect(outcome(value, site, measured)).toBe(truth);
        expect(rank[outcome(value, site + more, measured)]).toBeGreaterThanOrEqual(rank[truth]);
        expect(rank[outcome(value, site, measured + more)]).toBeGreaterThanOrEqual(rank[truth]);
      }),
      { numRuns: 3000, seed: 20260101 },
    );
  });
});

describe('tolerances of a check', () => {
  it.each([
    ['of a limit in no mm', { ...GAP, unit: undefined }, '"tolerances" belong to a limit in mm'],
    [
      'of a limit that is no number',
      { ...GAP, measure: 'gap.place', atLeast: undefined, atMost: undefined, equals: 'top' },
      'belong to a limit in mm',
    ],
    ['that are no fact', { ...GAP, tolerances: ['sit'] }, 'neither "site" nor a fact in mm; perhaps you meant "site"'],
    ['that are a fact of something else', { ...GAP, tolerances: ['neighbour.measuredTo'] }, 'nor a fact in mm'],
    ['that are a fact in degrees', { ...GAP, tolerances: ['penetration.skew'] }, 'nor a fact in mm'],
    ['twice', { ...GAP, tolerances: ['site', 'site'] }, 'stands twice'],
  ])('are refused %s', (_, changes, message) => {
    expect(refusal(document([checkFields(changes)])).message).toContain(message);
  });

  it('are asked of every shipped limit of what is set out on site; of the rest it is known why not', () => {
    const without = shippedRules.checks
      .filter(({ definition: { unit, tolerances } }) => unit === 'mm' && !tolerances)
      .map(({ definition }) => definition.id);
    expect(without.sort()).toEqual(
      [
        // Two statements about the same thing are held against each other; their limit is a tolerance itself.
        ...['property-agrees', 'layers-agree', 'wall-reaches-structure', 'rated-walls-meet'],
        // Made elsewhere in the size that it has: boards, dampers, panels.
        ...['barrier-thickness-tested', 'damper-width-tested', 'damper-height-tested', 'damper-diameter-tested'],
        ...['us-grease-duct-cleanout-size', 'sheet-thick-enough', 'sheet-thin-enough'],
        // What the brief says moves, whoever builds it how.
        'movement-tested',
        // Whether anything is there at all: nothing may be, so nothing can be inside the limit.
        ...['damper-in-barrier', 'protection-continuous', 'in-line-elements-tested'],
      ].sort(),
    );
  });
});
