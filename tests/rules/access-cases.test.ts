/** Access openings for cleaning, check by check, at each limit and 104 mm beyond it; golden case G15 stands in access.test.ts. */
import type { AccessPanel, Crossings, RunAccess } from '../../src/model.js';
import { barrier, choicesFor, crossings, modelInfo, penetration, run, treated, wrapped } from './factories.js';
import { demonstrationBrief } from './protected.js';
import { ASKED, REACHED } from './room-and-access.js';
import { type RuleCase, ruleCases, shippedRules } from './rule-cases.js';

const [PANEL] = REACHED.panels as readonly [AccessPanel, ...AccessPanel[]];
const [GAP] = REACHED.gaps as readonly [RunAccess['gaps'][number], ...RunAccess['gaps']];
const [BEND] = REACHED.bends as readonly [RunAccess['bends'][number], ...RunAccess['bends']];

type Penetration = Crossings['penetrations'][number];

function reached(changes: Partial<RunAccess>, at: Penetration = wrapped()): Crossings {
  const none = { panels: [], gaps: [], bends: [] };
  return crossings({ penetrations: [at], runs: [run()], access: [{ ...REACHED, ...none, ...changes }] });
}
const apart = (length: number, changes: Partial<RunAccess> = {}): Crossings =>
  reached({ gaps: [{ ...GAP, length, level: length }], ...changes });
const fromBend = (toAccess: number, changes: Partial<RunAccess> = {}): Crossings =>
  reached({ bends: [{ ...BEND, toAccess }], ...changes });
/** Away from every barrier where nothing else is said. */
const panel = (changes: Partial<AccessPanel>): Crossings =>
  reached({ panels: [{ ...PANEL, barrier: null, ...changes }] });

/** A brief that names the code which the check is of. */
function under(check: string, service?: 'smokeExhaust'): NonNullable<RuleCase['brief']> {
  const { jurisdiction, edition } = shippedRules.checks.find(({ definition }) => definition.id === check)!.definition
    .basis.code!;
  return { choices: { ...choicesFor(...(service ? [{ service }] : [])), jurisdiction, edition: [edition] } };
}
const PARTLY: Partial<RunAccess> = { complete: null };

/** @param limit mm, as the code has it */
const codeCases = (
  id: string,
  at: (distance: number, changes?: Partial<RunAccess>) => Crossings,
  limit: number,
): readonly RuleCase[] => [
  {
    why: 'as far as is allowed',
    ...{ crossings: at(limit), brief: under(id) },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: limit, limit: { atMost: limit } }],
  },
  {
    why: 'too far',
    ...{ crossings: at(limit + 104), brief: under(id) },
    findings: [{ outcome: 'failed', measured: limit + 104, margin: -104 }],
  },
  {
    why: 'panels that nobody drew may lie between',
    ...{ crossings: at(limit + 104, PARTLY), brief: under(id) },
    findings: [{ outcome: 'cantTell', wouldBe: null, measured: null }],
  },
  {
    why: 'no kitchen exhaust',
    ...{ crossings: at(limit + 104), brief: under(id, 'smokeExhaust') },
    findings: [{ outcome: 'inapplicable' }],
  },
];

const spacing = (id: string, limit: number) => codeCases(id, apart, limit);
ruleCases('us-grease-duct-cleanout-spacing', spacing('us-grease-duct-cleanout-spacing', 6096));
ruleCases('us-grease-duct-access-spacing-nfpa', spacing('us-grease-duct-access-spacing-nfpa', 3700));
ruleCases('au-kitchen-exhaust-access-spacing', spacing('au-kitchen-exhaust-access-spacing', 3000));
ruleCases('uk-kitchen-exhaust-access-spacing-2nd', spacing('uk-kitchen-exhaust-access-spacing-2nd', 3000));
ruleCases('uk-kitchen-exhaust-access-spacing', spacing('uk-kitchen-exhaust-access-spacing', 2000));
ruleCases('us-grease-duct-cleanout-at-bend', codeCases('us-grease-duct-cleanout-at-bend', fromBend, 3048));

ruleCases('access-panels-modelled', [
  {
    why: 'all are modelled',
    ...{ crossings: apart(2000), models: [modelInfo()], brief: { choices: { ...choicesFor(), access: ASKED } } },
    findings: [{ outcome: 'passed' }],
  },
  {
    why: 'nothing says whether all are',
    ...{ crossings: apart(2000, PARTLY), models: [modelInfo()] },
    brief: { choices: { ...choicesFor(), access: ASKED } },
    findings: [{ outcome: 'cantTell' }],
  },
]);

/** The project asks for 3,000 mm along the duct and 1,000 mm from bends. */
const asked = { choices: { ...choicesFor(), access: ASKED } };
const askedCases = (
  at: (distance: number, changes?: Partial<RunAccess>) => Crossings,
  limit: number,
): readonly RuleCase[] => [
  {
    why: 'as far as is asked',
    ...{ crossings: at(limit), brief: asked },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: limit, limit: { atMost: limit } }],
  },
  {
    why: 'too far',
    ...{ crossings: at(limit + 0.1), brief: asked },
    findings: [{ outcome: 'failed', measured: limit + 0.1, margin: -0.1 }],
  },
  {
    why: 'panels that nobody drew may lie between',
    ...{ crossings: at(limit + 0.1, PARTLY), brief: asked },
    findings: [{ outcome: 'cantTell', wouldBe: null }],
  },
  {
    why: 'the project asks for nothing',
    ...{ crossings: at(9000), brief: { choices: choicesFor() } },
    findings: [{ outcome: 'inapplicable' }],
  },
];
ruleCases('access-spacing-as-asked', askedCases(apart, 3000));
ruleCases('access-bend-as-asked', askedCases(fromBend, 1000));

const panelCases = (id: string, name: 'toEdge' | 'width', limit: number): readonly RuleCase[] => [
  {
    why: 'enough',
    ...{ crossings: panel({ [name]: limit }), brief: under(id) },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed', measured: limit, limit: { atLeast: limit } }],
  },
  {
    why: 'too little',
    ...{ crossings: panel({ [name]: limit - 5 }), brief: under(id) },
    findings: [{ outcome: 'failed', measured: limit - 5, margin: -5 }],
  },
  {
    why: 'how it lies on the duct is not known',
    ...{ crossings: panel({ side: null, width: null, height: null, toEdge: null }), brief: under(id) },
    findings: [{ outcome: 'cantTell', wouldBe: null }],
  },
  {
    why: 'no kitchen exhaust',
    ...{ crossings: panel({ [name]: limit - 5 }), brief: under(id, 'smokeExhaust') },
    findings: [{ outcome: 'inapplicable' }],
  },
];
ruleCases('us-grease-duct-cleanout-size', panelCases('us-grease-duct-cleanout-size', 'width', 305));
ruleCases('us-grease-duct-cleanout-edge', panelCases('us-grease-duct-cleanout-edge', 'toEdge', 25.4));

const near = (distance: number) => ({ barrier: { penetration: 'P-0001', distance } });
const brief = demonstrationBrief;
/** The blanket is built up for 200 mm beside a wall of studs round a duct of 600 x 400 mm. */
ruleCases('panel-clear-of-build-up', [
  {
    why: 'right beyond the build-up',
    ...{ crossings: panel(near(200)), brief },
    findings: [{ outcome: 'passed', measured: 200, limit: { atLeast: 200 } }],
  },
  {
    why: 'a demonstration proves nothing without its brief',
    ...{ crossings: panel(near(200)), brief: { choices: demonstrationBrief.choices } },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
  {
    why: 'within the build-up',
    ...{ crossings: panel(near(100)), brief },
    findings: [{ outcome: 'failed', measured: 100, margin: -100 }],
  },
  {
    why: 'nothing was tested in this barrier, so nobody knows how far the build-up goes',
    crossings: reached(
      { panels: [{ ...PANEL, ...near(100) }] },
      wrapped({ barrier: barrier({ construction: 'timberStud' }) }),
    ),
    brief,
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['system.detail'] }],
  },
  {
    why: 'a damper, and no protection',
    ...{ crossings: reached({ panels: [{ ...PANEL, ...near(100) }] }, penetration(treated('damper'))), brief },
    findings: [{ outcome: 'inapplicable' }],
  },
]);

/** The blanket was tested with panels up to 400 x 400 mm, on top and at the sides. */
ruleCases('panel-in-tested-duct', [
  {
    why: 'as tested',
    ...{ crossings: panel({ ...near(300), width: 400, height: 400 }), brief },
    findings: [{ outcome: 'passed', measured: true }],
  },
  {
    why: 'a demonstration proves nothing without its brief',
    ...{ crossings: panel(near(300)), brief: { choices: demonstrationBrief.choices } },
    findings: [{ outcome: 'cantTell', wouldBe: 'passed' }],
  },
  {
    why: 'larger than tested',
    ...{ crossings: panel({ ...near(300), width: 400.1 }), brief },
    findings: [{ outcome: 'failed', measured: false }],
  },
  {
    why: 'underneath, where none was tested',
    ...{ crossings: panel({ ...near(300), side: 'bottom' }), brief },
    findings: [{ outcome: 'failed' }],
  },
  {
    why: 'its size is not known',
    ...{ crossings: panel({ ...near(300), width: null }), brief },
    findings: [{ outcome: 'cantTell', wouldBe: null, missing: ['evidence.accessPanels'] }],
  },
  {
    why: 'far from every barrier',
    ...{ crossings: panel({ barrier: null }), brief },
    findings: [{ outcome: 'inapplicable' }],
  },
]);
