/** Situations in which a document is asked what it allows, so that it shows which of its limits matter. */
import type { CarriedDuct, Penetration } from '../model.js';
import { FACE_DEPTH, FACE_RING } from '../tolerances.js';
import { testedDamperFacts } from './damper-facts.js';
import { detailsFor, placeOf } from './detail-facts.js';
import { faceFacts } from './face-facts.js';
import type { FactObject } from './fact-schema.js';
import { barriersOf, largestOf } from './notes-holes.js';
import { cornersOf, type DuctSize, type SizeTable } from './size-value.js';
import { weigh } from './support-design.js';
import { allowedSteel, supportLimits } from './support-limits.js';
import { systemFacts } from './system-facts.js';
import type { TestedDamper } from './tested-damper.js';
import { isTestedPanel } from './tested-panel.js';
import type { TestedSystem } from './tested-system.js';
import { threeSidedAt } from './three-sided.js';

type Document = TestedSystem | TestedDamper;

/** Whether a changed document tells the same as the one that was asked, as far as anything reads it. */
export type TellsTheSame = (changed: Document) => boolean;

/** @param read facts that checks go by */
export function tellingAs(document: Document, read: ReadonlySet<string>): TellsTheSame {
  const wanted = (variable: string, facts: FactObject): unknown[] =>
    Object.entries(facts).filter(([name]) => read.has(`${variable}.${name}`));
  const atPenetration = (system: FactObject): unknown[] => [
    ...wanted('system', system),
    ...faceFacts(SLOPING, system, undefined).flatMap(({ facts }) => wanted('face', facts)),
  ];
  const asked = document.kind === 'tested-damper' ? damperQuestions(document) : systemQuestions(document);
  const questions = asked.map((question) => (changed: Document): string => {
    const { atBarrier = [], elsewhere = [] } = question(changed);
    return JSON.stringify([
      atBarrier.map(atPenetration),
      elsewhere.map(([variable, facts]) => wanted(variable, facts)),
    ]);
  });
  const told = questions.map((question) => question(document));
  return (changed) => questions.every((question, i) => question(changed) === told[i]);
}

interface Answer {
  /** Facts of the system at a penetration, by each of its details there. */
  readonly atBarrier?: readonly FactObject[];
  readonly elsewhere?: readonly (readonly [variable: string, facts: FactObject])[];
}
type Question = (changed: Document) => Answer;

const damperQuestions = (damper: TestedDamper): Question[] =>
  damperProbes(damper).map((facts) => (changed) => ({
    atBarrier: [testedDamperFacts(changed as TestedDamper, facts)],
  }));

const systemQuestions = (system: TestedSystem): Question[] => [
  (changed) => ({ elsewhere: besideProbes(system, changed as TestedSystem) }),
  ...systemProbes(system).map(
    ({ facts, fixing }): Question =>
      (changed) => {
        const one = changed as TestedSystem;
        const details = detailsFor(placeOf(one, facts));
        const tested = (details.length > 0 ? details : [undefined]).map((detail) => ({
          system: one,
          fixing: one.fixings[fixing],
          detail,
        }));
        return { atBarrier: tested.map((given) => systemFacts(given, facts)) };
      },
  ),
];

/** What stands before its faces comes nearer the further it is from them, so that every depth finds another width. */
const SLOPING = (() => {
  const obstacle = { name: '', globalId: '', model: '', kind: 'other', side: 'top', distance: 0 };
  const face = {
    joint: null,
    obstacles: [
      {
        ...obstacle,
        clear: [
          [0, FACE_RING],
          [FACE_DEPTH, 0],
        ],
      },
    ],
  };
  return { barrier: { kind: 'wall' }, faces: [face, face] } as unknown as Penetration;
})();

/** Sizes at the ends of all rows of its tables, and the largest of its scope: values change at no others. */
function sizesIn(node: unknown): DuctSize[] {
  if (typeof node !== 'object' || node === null) return [];
  if ('bySize' in node && Array.isArray(node.bySize)) return cornersOf(node as SizeTable);
  return Object.values(node).flatMap(sizesIn);
}

function distinct<T>(list: readonly T[]): T[] {
  return [...new Map(list.map((one) => [JSON.stringify(one), one])).values()];
}

interface SystemProbe {
  readonly facts: FactObject;
  readonly fixing: number;
}

function systemProbes(system: TestedSystem): SystemProbe[] {
  const { scope, protection, fixings } = system;
  const { examples: _, ...limits } = system;
  const sizes = distinct([...largestOf(scope.duct), ...sizesIn(limits)]);
  const barriers = distinct(barriersOf(system).map(({ row: __, testedIn: ___, ...barrier }) => barrier));
  const rating = scope.ratings.at(-1)!;
  const at = (given: {
    barrier?: (typeof barriers)[number] | undefined;
    size?: DuctSize | undefined;
    layers?: number;
    required?: { integrity: number; insulation: number };
    isReached?: boolean;
    duct?: FactObject;
    fire?: string;
  }): FactObject => {
    const { barrier: on = barriers[0]!, size = sizes[0]!, layers = rating.layers, isReached = true } = given;
    const { required = rating, duct = { element: 'segment', material: scope.duct.materials[0] }, fire } = given;
    const { kind, construction, thicknessAtLeast } = on;
    return {
      barrier: { kind, construction, thickness: thicknessAtLeast },
      duct: { ...(size as FactObject), ...duct },
      penetration: {
        skew: 0,
        bothFacesReached: isReached,
        treatment: { kind: protection, layers },
        required: { integrity: required.integrity, insulation: required.insulation },
      },
      ...(fire !== undefined && { brief: { fire } }),
    };
  };
  const places = barriers.flatMap((barrier) =>
    sizes.flatMap((size) => [true, false].map((isReached) => at({ barrier, size, isReached }))),
  );
  const rest = [
    ...scope.ratings.map((required) => at({ layers: required.layers, required })),
    ...scope.duct.materials.map((material) => at({ duct: { element: 'segment', material } })),
    ...['flexible', 'fitting'].map((element) => at({ duct: { element } })),
    ...['inside', 'outside'].map((fire) => at({ fire })),
  ];
  const held = fixings.flatMap((one, fixing) =>
    [...largestOf(one.limits), ...sizes].map((size) => ({ facts: at({ size }), fixing })),
  );
  return [...[...places, ...rest].map((facts) => ({ facts, fixing: 0 })), ...held];
}

/** What is asked of a system elsewhere than at a penetration: supports, panels, what it lies against, its weight. */
function besideProbes(asked: TestedSystem, system: TestedSystem): (readonly [variable: string, facts: FactObject])[] {
  const { scope, supports, accessPanels } = asked;
  const times = distinct([...(supports?.rodStress ?? []), ...(supports?.bearerStress ?? [])].map(({ upTo }) => upTo));
  const ducts = distinct([...largestOf(scope.duct), ...sizesIn(supports)]).map(carried);
  const { widthAtMost: width = 1, heightAtMost: height = 1, clearOfPenetration: toBarrier = 1 } = accessPanels ?? {};
  const panel = { width, height, toBarrier, side: accessPanels?.sides?.[0] ?? 'top' };
  const facing = (scope.threeSided ?? []).flatMap(({ constructions, kinds = ['wall', 'floor', 'roof'], gapAtMost }) =>
    constructions.flatMap((construction) => kinds.map((kind) => ({ construction, kind, gapAtMost }))),
  );
  const weights = ducts.map((duct) =>
    weigh(duct, { kind: asked.protection, layers: 1 } as Parameters<typeof weigh>[1], system, undefined, []),
  );
  return [
    ...ducts.flatMap((duct) =>
      [0, ...times].map((minutes) => ['system', supportLimits(system, duct, minutes)] as const),
    ),
    ['system', allowedSteel(system.supports, supports?.rods?.[0], supports?.bearers?.[0])],
    ['system', { panelAllowed: isTestedPanel(system, panel) }],
    ...facing.map(
      ({ construction, kind, gapAtMost }) =>
        [
          'system',
          { threeSidedFits: threeSidedAt(system, { what: 'barrier', kind, construction }, gapAtMost, false)?.fits },
        ] as const,
    ),
    // Where protection lapses in line depends on it.
    ['lapse', { kind: system.scope.duct.inLine }],
    // What hangs in rods is the weight of the protection too.
    ...weights.map(({ protection }) => ['support', { rodStress: protection?.perMetre ?? undefined }] as const),
  ];
}

const carried = ({ shape, width, height, diameter }: DuctSize): CarriedDuct =>
  ({
    ...{ model: '', globalId: '', name: '', way: 'level', sheet: null, insulation: null, material: 'steel' },
    ...{ shape, width: width ?? null, height: height ?? null, diameter: diameter ?? null },
  }) as CarriedDuct;

function damperProbes(damper: TestedDamper): FactObject[] {
  const { scope, words } = damper;
  const { rectangular, circular } = scope.sizes;
  const { examples: _, ...limits } = damper;
  const sizes = distinct([
    ...largestOf({
      ...(rectangular && { rectangular: { width: rectangular.width.atMost, height: rectangular.height.atMost } }),
      ...(circular && { circular: { diameter: circular.diameter.atMost } }),
    }),
    ...sizesIn(limits),
  ]);
  const barriers = scope.barriers.flatMap(({ kinds, construction, thicknessAtLeast }) =>
    kinds.map((kind) => ({ kind, construction, thickness: thicknessAtLeast })),
  );
  const rated = { integrity: 1440, insulation: 1440 };
  return barriers.flatMap((barrier) =>
    sizes.flatMap((size) =>
      scope.purposes.map((purpose) => ({
        barrier,
        penetration: {
          treatment: { kind: 'damper', ...rated },
          damper: { name: words?.[0] ?? 'damper', purpose, offset: 0, ...(size as FactObject) },
          required: rated,
        },
      })),
    ),
  );
}
