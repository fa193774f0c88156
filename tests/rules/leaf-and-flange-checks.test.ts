/** The checks on what a barrier's layers, its ExtendToStructure and the joints of ducts tell; numbers from each case. */
import type { BarrierFacts, Penetration } from '../../src/model.js';
import {
  barrier,
  choicesFor,
  crossings,
  duct,
  gaps,
  NOT_REQUIRED,
  penetration,
  treated,
  UNSTATED,
  wrapped,
} from './factories.js';
import { demonstrationBrief } from './protected.js';
import { type RuleCase, ruleCases } from './rule-cases.js';

type Findings = RuleCase['findings'];

const wall = (why: string, changes: Partial<BarrierFacts>, ...findings: Findings): RuleCase => ({
  why,
  crossings: crossings({ penetrations: [penetration({ barrier: barrier(changes) })] }),
  findings,
});

const lined = (leafProblem: BarrierFacts['leafProblem'], more: Partial<BarrierFacts> = {}): Partial<BarrierFacts> => ({
  ...{ construction: 'concrete', thickness: 262.5, leafThickness: null, leafFrom: null, leafProblem },
  ...more,
});
const open = { outcome: 'cantTell', missing: ['barrier.thickness'] } as const;

ruleCases('leaf-known', [
  wall('the whole element', {}, { outcome: 'passed' }),
  wall('told from its lining', { leafThickness: 90, leafFrom: 'layers' }, { outcome: 'passed' }),
  wall('not measured', { thickness: null, leafFrom: null }, open),
  wall('a list of materials', lined('thicknessUnstated'), {
    ...open,
    message:
      'Wall 1 has linings or cavities besides its concrete, and not every layer says how thick it is: how thick the rated leaf is cannot be told.',
  }),
  wall('drawn without its lining', lined('thicknessDiffers', { drawnThickness: 200, layersThickness: 262.5 }), {
    ...open,
    message:
      'Wall 1 has linings or cavities besides its concrete, and its layers add up to 262.5 mm where it is drawn 200 mm thick: how thick the rated leaf is cannot be told.',
  }),
  wall('nothing says which layer is of concrete', lined('notTold'), open),
  wall('not required', lined('notTold', { rating: NOT_REQUIRED }), { outcome: 'inapplicable' }),
]);

const head = (gap: number | null, extendToStructure: boolean | null): Partial<BarrierFacts> => ({
  head: { gap, length: gap ? 4000 : 0, at: gap ? [1000, 0, 3200] : null, passing: [], extendToStructure },
});
const uncrossed = (why: string, changes: Partial<BarrierFacts>, ...findings: Findings): RuleCase => ({
  why,
  crossings: crossings({ barriers: [barrier(changes)] }),
  findings,
});

const contradiction = { outcome: 'cantTell', missing: ['barrier.head'] } as const;

ruleCases('extend-to-structure-agrees', [
  wall('TRUE, up to the slab', head(0, true), { outcome: 'passed' }),
  wall('TRUE, but for the joint', head(25, true), { outcome: 'passed' }),
  wall('TRUE, a tenth more', head(25.1, true), {
    outcome: 'failed',
    message:
      'ExtendToStructure of Wall 1 is TRUE, but the wall is drawn with 25.1 mm between its top and the structure above (up to 25 mm are taken for its joint).',
    remedy: 'Draw Wall 1 up to the structure, or set ExtendToStructure to FALSE if it is built short of it.',
  }),
  wall('FALSE, stopping short', head(400, false), { outcome: 'passed' }),
  wall('FALSE, up to the slab', head(0, false), {
    ...contradiction,
    message:
      'ExtendToStructure of Wall 1 is FALSE, but the wall is drawn up to the structure above (gap: 0 mm): which of the two holds cannot be told.',
  }),
  uncrossed('FALSE, up to the slab, though nothing passes the wall', head(0, false), contradiction),
  uncrossed('TRUE, up to the slab: of a wall that nothing passes there is nothing to say', head(0, true)),
  wall('nothing above in the models', head(null, true), { outcome: 'cantTell', missing: ['barrier.head'] }),
  wall('not stated', head(400, null), { outcome: 'inapplicable' }),
  wall('not required', { ...head(0, false), rating: NOT_REQUIRED }, { outcome: 'inapplicable' }),
  wall(
    'not known whether rated',
    { ...head(0, false), rating: UNSTATED },
    {
      outcome: 'cantTell',
      missing: ['barrier.rating'],
    },
  ),
]);

const round = (min: number | null): Pick<Penetration, 'gaps'> => ({ gaps: gaps({ left: min, min }) });
const inside = { jointDistance: -30, jointFrom: 'touching' } as const;
/** The brief's flanges are 20 mm high; the duct is 600 by 400 mm, so that those of the table are too. */
const joined = (why: string, changes: Partial<Penetration>, flanges: 'brief' | 'table', ...findings: Findings) => ({
  why,
  crossings: crossings({ penetrations: [penetration({ ...inside, ...treated('damper'), dampers: [], ...changes })] }),
  brief: { choices: { ...choicesFor({}), ...(flanges === 'brief' && { flangeHeight: 20 }) } },
  findings,
});
const wouldPass = { outcome: 'cantTell', wouldBe: 'passed', missing: [] } as const;
const table = { outcome: 'cantTell', wouldBe: null, missing: ['brief.flangeHeight'] } as const;

ruleCases('flange-leaves-gap', [
  joined('30 mm less 20 leave 10', round(30), 'brief', { ...wouldPass, measured: 10, limit: { atLeast: 10 } }),
  joined('a tenth less', round(29.9), 'brief', {
    outcome: 'failed',
    measured: 9.9,
    margin: -0.1,
    message:
      'The flanges of Duct 1, 20 mm high (brief), leave 9.9 mm of its narrowest gap in Wall 1 where at least 10 mm is asked for: it is joined -30 mm from the face (less than 0: behind it; inferred where pieces touch).',
  }),
  joined('flanges that do not even go into the opening', round(15), 'brief', { outcome: 'failed', measured: -5 }),
  joined('what is usual leaves enough', round(30), 'table', wouldPass),
  joined('what is usual leaves too little, which proves nothing either', round(29.9), 'table', {
    ...table,
    message:
      'Duct 1 is joined -30 mm from the face of Wall 1 (less than 0: behind it; inferred where pieces touch). Flanges of 20 mm, as is usual, not from this project, would leave too little of its narrowest gap of 29.9 mm.',
  }),
  joined('wider ducts have higher flanges', { ...round(39), duct: duct({ width: 1200 }) }, 'table', table),
  joined(
    'of insulated ducts the size of the sheet counts',
    {
      ...round(30),
      duct: duct({
        ...{ width: 1060, height: 460 },
        sizes: { inside: null, sheet: { width: 1000, height: 400, diameter: null }, insulation: null },
      }),
    },
    'table',
    wouldPass,
  ),
  joined(
    'of round ducts nothing is usual',
    { ...round(30), duct: duct({ shape: 'circular', width: null, height: null, diameter: 315 }) },
    'table',
    table,
  ),
  joined('a joint just before the face', { ...round(29), jointDistance: 49.9 }, 'brief', { outcome: 'failed' }),
  joined('clear of it', { ...round(29), jointDistance: 50 }, 'brief', { outcome: 'inapplicable' }),
  joined('an end of which nothing says what it is joined to', { ...round(29), jointFrom: 'end' }, 'brief', {
    outcome: 'cantTell',
    missing: ['penetration.jointDistance'],
  }),
  joined('joints that are not known', { ...round(29), jointDistance: null, jointFrom: null }, 'brief', {
    outcome: 'cantTell',
    missing: ['penetration.jointDistance'],
  }),
  joined('gaps to what is not known', { ...round(29), gapsTo: 'unknown' }, 'brief', {
    outcome: 'cantTell',
    missing: ['penetration.gapsTo'],
  }),
  joined('gaps to insulation', { ...round(29), gapsTo: 'insulation' }, 'brief', {
    outcome: 'cantTell',
    missing: ['penetration.gapsTo'],
  }),
  joined('gaps that are not known', round(null), 'brief', {
    outcome: 'cantTell',
    missing: ['penetration.narrowestGap'],
  }),
  joined('no opening', { ...round(29), opening: null }, 'brief', { outcome: 'inapplicable' }),
  {
    why: 'the gap that a tested system asks for counts, and the flange still proves nothing',
    crossings: crossings({ penetrations: [wrapped({ ...inside, ...round(30) })] }),
    brief: { ...demonstrationBrief, choices: { ...demonstrationBrief.choices, flangeHeight: 20 } },
    findings: [{ ...wouldPass, limit: { atLeast: 10 } }],
  },
]);
