import { expect, it } from 'vitest';
import type { Crossings, DuctProtection, Run } from '../../src/model.js';
import { runStrategies } from '../../src/rules/run-strategy.js';
import { barrier, compartment, crossings, rating, run, stretch, stretchPart, treated, wrapped } from './factories.js';
import { demonstrationBrief, protectedByTwo } from './protected.js';
import { type RuleCase, ruleCases } from './rule-cases.js';

const SERVED = stretch({ serves: [{ model: 'm1', globalId: 'T1' }] });
const BARE: DuctProtection = { kind: 'none', evidence: null, layers: null, integrity: null, insulation: null };
const UNTOLD: DuctProtection = { ...BARE, kind: 'unknown' };
const behind = (...parts: Parameters<typeof stretchPart>[0][]) =>
  stretch({ id: 'R-001.2', compartment: 'C-0002', parts: parts.map((part) => stretchPart(part)) });

/** A run from C-0001 into C-0002 through P-0001, protected at the barrier under the brief. */
function through(changes: Partial<Run> = {}, penetration: Parameters<typeof wrapped>[0] = {}): Crossings {
  return crossings({
    penetrations: [wrapped(penetration)],
    runs: [run(changes)],
    compartments: [compartment({ name: 'Kitchen' }), compartment({ id: 'C-0002', name: 'Corridor' })],
  });
}
const brief = demonstrationBrief;
const dampered = treated('damper');
const TERMINAL = { model: 'm1', globalId: 'T2' };

ruleCases('one-compartment-served', [
  {
    why: 'one compartment, and closed elsewhere',
    ...{ crossings: through(), brief },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: 1 }],
  },
  {
    why: 'a terminal on either side of the barrier',
    crossings: through({ stretches: [SERVED, { ...behind({}), serves: [TERMINAL] }] }),
    brief,
    findings: [
      {
        outcome: 'failed',
        measured: 2,
        message:
          'SA (R-001) opens into 2 compartments (Kitchen and Corridor; at most 1 is allowed) with no fire damper between them: fire passes through the duct from one into the other, however well it is protected.',
      },
    ],
  },
  {
    why: 'no terminal',
    crossings: through({ stretches: [stretch(), behind({})] }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['run.serves'] }],
  },
  {
    why: 'nothing at its far end',
    crossings: through({ stretches: [SERVED, { ...behind({}), looseEnds: [[3000, 0, 2500]] }] }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['run.ends'] }],
  },
  {
    why: 'a damper in the barrier: each part by itself',
    crossings: through({}, dampered),
    brief,
    findings: [{ outcome: 'inapplicable' }, { outcome: 'inapplicable' }],
  },
]);

ruleCases('protection-continuous', [
  {
    why: 'protected all along',
    ...{ crossings: through(), brief },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: 0 }],
  },
  {
    why: 'three metres without',
    crossings: through({ stretches: [SERVED, behind({ protection: BARE, name: 'Riser' })] }),
    brief,
    findings: [
      {
        outcome: 'failed',
        measured: 3000,
        limit: { atMost: 0 },
        message:
          'The protection of SA (R-001) stops for 3000 mm in Corridor (at most 0 mm is allowed): Riser. Fire would enter the duct there, or leave it.',
      },
    ],
  },
  {
    why: 'in what is served it may be left out',
    crossings: through({ stretches: [{ ...SERVED, parts: [stretchPart({ protection: BARE })] }, behind({})] }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
  {
    why: 'nobody says',
    crossings: through({ stretches: [SERVED, behind({ protection: UNTOLD })] }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['run.protection'] }],
  },
  {
    why: 'outside the building it may stop',
    crossings: through({ stretches: [SERVED, behind({ protection: BARE, outside: true })] }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
  {
    why: 'which compartment it serves is not known',
    crossings: through({ stretches: [stretch(), behind({ protection: BARE })] }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['run.serves'] }],
  },
  {
    why: 'neither a damper nor protection: the penetration says so',
    crossings: through({ stretches: [SERVED, behind({ protection: BARE })] }, treated('none')),
    brief,
    findings: [{ outcome: 'inapplicable' }],
  },
]);

ruleCases('in-line-elements-tested', [
  {
    why: 'ducts only',
    ...{ crossings: through(), brief },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
  {
    why: 'a silencer behind the barrier',
    crossings: through({ stretches: [SERVED, behind({ element: 'silencer', name: 'Silencer 1', length: 1200 })] }),
    brief,
    findings: [{ outcome: 'failed', measured: 1200 }],
  },
  {
    why: 'a fan in what is served',
    crossings: through({ stretches: [{ ...SERVED, parts: [stretchPart({ element: 'fan' })] }, behind({})] }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
  {
    why: 'a flexible duct, and it is not known what is served',
    crossings: through({ stretches: [stretch(), behind({ element: 'flexible' })] }),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['run.serves'] }],
  },
  {
    why: 'dampered',
    crossings: through({ stretches: [SERVED, behind({ element: 'fan' })] }, dampered),
    brief,
    findings: [{ outcome: 'inapplicable' }, { outcome: 'inapplicable' }],
  },
]);

const oneHour: DuctProtection = { kind: 'blanket', evidence: 'a drawing', layers: 1, integrity: 60, insulation: 60 };
const notSaid: DuctProtection = { ...oneHour, integrity: null, insulation: null };
const sameForBoth = (criterion: 'integrity' | 'insulation') =>
  [
    {
      why: 'two hours all along',
      ...{ crossings: through(), brief },
      findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: 120 }],
    },
    {
      why: 'one hour behind the barrier',
      crossings: through({ stretches: [SERVED, behind({ protection: oneHour })] }),
      brief,
      findings: [{ outcome: 'failed', measured: 60, limit: { atLeast: 120 } }],
    },
    {
      why: `a barrier that asks for no ${criterion}`,
      crossings: through(
        { stretches: [SERVED, behind({ protection: oneHour })] },
        {
          barrier: { ...wrapped().barrier, rating: rating({ integrity: 30, insulation: 30, [criterion]: 'none' }) },
        },
      ),
      brief,
      findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: 60 }],
    },
    {
      why: 'a part of which nothing is declared',
      crossings: through({ stretches: [SERVED, behind({ protection: notSaid })] }),
      brief,
      findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['run.protection.rating'] }],
    },
    {
      why: 'dampered',
      crossings: through({}, dampered),
      brief,
      findings: [{ outcome: 'inapplicable' }, { outcome: 'inapplicable' }],
    },
  ] as const;

ruleCases('run-integrity-declared', sameForBoth('integrity'));
ruleCases('run-insulation-declared', sameForBoth('insulation'));

it('takes a run of which nothing is protected, or a part for nothing that is said, for declared for nothing known', () => {
  const declared = (...protections: DuctProtection[]) => {
    const stretches = [SERVED, behind(...protections.map((protection) => ({ protection })))];
    return runStrategies(through({ stretches }), { testedInLine: () => [] }).map((one) => one.declared);
  };
  expect(declared(BARE)).toEqual([{ integrity: undefined, insulation: undefined }]);
  expect(declared(oneHour, notSaid)).toEqual([{ integrity: undefined, insulation: undefined }]);
  expect(declared(oneHour, { ...oneHour, insulation: 30 })).toEqual([{ integrity: 60, insulation: 30 }]);
});

const byTwo = (kind: DuctProtection['kind'], testedSystem: string): RuleCase => ({
  why: `a blanket, then ${testedSystem}`,
  ...{ ...protectedByTwo(kind, testedSystem), findings: [] },
});

ruleCases('one-system-along-run', [
  { ...byTwo('blanket', 'demonstration-blanket'), findings: [{ outcome: 'inapplicable' }] },
  {
    ...byTwo('fireResistingDuct', 'demonstration-duct'),
    findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: true }],
  },
  {
    ...byTwo('board', 'demonstration-board'),
    findings: [
      {
        outcome: 'failed',
        message:
          'SA (R-001) is protected by Illustrative blanket A and Illustrative board B; no document says that they may stand beside each other.',
      },
    ],
  },
]);

it('asks of what lies between dampers as much as of the barriers that it ends at, else as much as of those it passes', () => {
  const wall = (integrity: number, insulation: number) => barrier({ rating: rating({ integrity, insulation }) });
  const required = (penetration: Parameters<typeof wrapped>[0]) =>
    runStrategies(through({}, penetration), { testedInLine: () => [] }).map((one) => one.required);
  const asked = { integrity: 90, insulation: 30 };
  expect(required({ barrier: wall(90, 30) })).toEqual([asked]);
  expect(required({ ...dampered, barrier: wall(90, 30) })).toEqual([asked, asked]);
  // With a wall that it passes without one, that counts alone.
  const [open, shut] = [
    wrapped({ barrier: wall(60, 60) }),
    wrapped({ ...dampered, id: 'P-0002', key: 'key-2', barrier: wall(120, 120) }),
  ];
  const beyond = stretch({ id: 'R-001.3', compartment: 'C-0003', ends: [{ penetration: 'P-0002', part: 0 }] });
  const middle = { ...behind({}), ends: [...behind({}).ends, { penetration: 'P-0002', part: 0 }] };
  const found = { ...through({ stretches: [SERVED, middle, beyond] }), penetrations: [open, shut] };
  expect(runStrategies(found, { testedInLine: () => [] }).map((one) => one.required)).toEqual([
    { integrity: 60, insulation: 60 },
    { integrity: 120, insulation: 120 },
  ]);
});
