/**
 * What is missing and how to mend it where it was made. Entities and property sets by their names in IFC4; where
 * IFC2X3 has another way, both are named.
 */
import type { AirElement, Barrier, Federation, Rating } from '../model.js';
import type { Lack } from './readiness-schema.js';
import { counted } from './text.js';

/** Enough to find the kind of element in the authoring program; the whole list is in the models. */
const EXAMPLES = 3;

type Element = AirElement | Barrier;

interface Question<T> {
  readonly code: string;
  /** Completes "3 of 12 barriers …": singular, plural. */
  readonly lacks: readonly [string, string];
  readonly mend: string;
  readonly is: (element: T) => boolean;
}

export function findLacks(federation: Federation): Lack[] {
  const { airElements, barriers, models } = federation;
  const segments = airElements.filter((e) => e.kind === 'segment' || e.kind === 'flexible');
  const dampers = airElements.filter((e) => e.kind === 'damper');
  const fireDampers = dampers.filter((e) => e.damper?.purpose === 'fire' || e.damper?.purpose === 'fireSmoke');
  return [
    ...nothingAtAll(federation),
    ...ask(barriers, ['barrier', 'barriers'], BARRIER_QUESTIONS),
    ...ask(segments, ['duct segment', 'duct segments'], SEGMENT_QUESTIONS),
    ...ask(airElements, ['piece of ductwork', 'pieces of ductwork'], AIR_QUESTIONS),
    ...ask(dampers, ['damper', 'dampers'], DAMPER_QUESTIONS),
    ...ask(fireDampers, ['fire damper', 'fire dampers'], FIRE_DAMPER_QUESTIONS),
    ...unread(models),
  ];
}

function ask<T extends Element>(
  elements: readonly T[],
  [one, many]: readonly [string, string],
  questions: readonly Question<T>[],
): Lack[] {
  return questions.flatMap(({ code, lacks: [has, have], mend, is }) => {
    const found = elements.filter(is);
    if (found.length === 0) return [];
    return {
      code,
      count: found.length,
      of: elements.length,
      what: `${found.length} of ${counted(elements.length, one, many)} ${found.length === 1 ? has : have}.`,
      mend,
      examples: found.slice(0, EXAMPLES).map(({ model, globalId, name }) => ({ model, globalId, name })),
    };
  });
}

const hasState =
  (...states: Rating['state'][]) =>
  ({ rating }: { readonly rating: Rating }): boolean =>
    states.includes(rating.state);

const BARRIER_QUESTIONS: readonly Question<Barrier>[] = [
  {
    code: 'rating-unstated',
    lacks: ['states no fire rating', 'state no fire rating'],
    mend: 'Fill FireRating in the common property set (Pset_WallCommon, Pset_SlabCommon, Pset_RoofCommon) of the element or its type; where no rating is required, set Compartmentation to FALSE there.',
    is: hasState('unstated'),
  },
  {
    code: 'rating-unreadable',
    lacks: ['has a fire rating that can not be read', 'have a fire rating that can not be read'],
    mend: 'Write the agreed rating alone into FireRating, with its criteria, e.g. "-/120/120" or "EI 120"; no remarks, no question marks.',
    is: hasState('unreadable'),
  },
  {
    code: 'rating-duration-only',
    lacks: ['states a duration without criteria', 'state a duration without criteria'],
    mend: 'Write into FireRating what the duration is for, e.g. "-/60/60" or "EI 60": integrity and insulation are checked apart.',
    is: hasState('durationOnly'),
  },
  {
    code: 'rating-criterion-open',
    lacks: [
      'has a rating that leaves integrity or insulation open',
      'have a rating that leaves integrity or insulation open',
    ],
    mend: 'State both integrity and insulation in FireRating, with "-" for what is not asked for.',
    is: ({ rating }) => rating.state === 'stated' && (rating.integrity === null || rating.insulation === null),
  },
  {
    code: 'layers-missing',
    lacks: ['has no material', 'have no material'],
    mend: 'Give the element or its type an IfcMaterialLayerSet through IfcRelAssociatesMaterial: what a barrier is built of decides which protection was tested for it.',
    is: ({ layers }) => layers.length === 0,
  },
  {
    code: 'layer-thickness-missing',
    lacks: ['has materials without thicknesses', 'have materials without thicknesses'],
    mend: 'Use an IfcMaterialLayerSet with a LayerThickness for every layer instead of a single material or a list.',
    is: ({ layers }) => layers.length > 0 && layers.some(({ thickness }) => thickness === undefined),
  },
  {
    code: 'barrier-storey-missing',
    lacks: ['belongs to no storey', 'belong to no storey'],
    mend: 'Put the element into an IfcBuildingStorey through IfcRelContainedInSpatialStructure.',
    is: ({ storey }) => storey === undefined,
  },
];

const SEGMENT_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'section-mesh-only',
    lacks: [
      'is a mesh only, so its section has to be measured',
      'are meshes only, so their sections have to be measured',
    ],
    mend: 'Export straight ducts as IfcExtrudedAreaSolid with a rectangle or circle profile, not as faces or triangles.',
    is: ({ bodies }) => !bodies.some((body) => body.kind === 'prism'),
  },
];

const AIR_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'system-missing',
    lacks: ['belongs to no system', 'belong to no system'],
    mend: 'Assign it to an IfcDistributionSystem (IFC2X3: IfcSystem) through IfcRelAssignsToGroup.',
    is: ({ system }) => system === undefined,
  },
  {
    code: 'system-type-missing',
    lacks: ['is in a system whose type is not stated', 'are in systems whose type is not stated'],
    mend: 'Set PredefinedType of the IfcDistributionSystem, e.g. EXHAUST or VENTILATION (IFC2X3 has no such attribute: the name has to say it).',
    is: ({ system, systemType }) => system !== undefined && systemType === undefined,
  },
  {
    code: 'ports-missing',
    lacks: ['has no ports', 'have no ports'],
    mend: 'Export IfcDistributionPort at each end (nested by IfcRelNests; IFC2X3: IfcRelConnectsPortToElement) and connect them with IfcRelConnectsPorts.',
    is: ({ ports }) => ports.length === 0,
  },
  {
    code: 'duct-material-unknown',
    lacks: ['does not say what metal or plastic it is made of', 'do not say what metal or plastic they are made of'],
    mend: 'Associate an IfcMaterial whose name says it, e.g. "Galvanised steel", through IfcRelAssociatesMaterial.',
    is: ({ material }) => material === 'unknown',
  },
  {
    code: 'duct-storey-missing',
    lacks: ['belongs to no storey', 'belong to no storey'],
    mend: 'Put the element into an IfcBuildingStorey through IfcRelContainedInSpatialStructure.',
    is: ({ storey }) => storey === undefined,
  },
];

const DAMPER_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'damper-purpose-unknown',
    lacks: ['does not say what it is for', 'do not say what they are for'],
    mend: 'Set PredefinedType of the IfcDamper or its type, e.g. FIREDAMPER, FIRESMOKEDAMPER, CONTROLDAMPER (IFC2X3: of IfcDamperType).',
    is: ({ damper }) => damper === undefined || damper.purpose === 'unknown',
  },
];

const FIRE_DAMPER_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'damper-rating-unknown',
    lacks: ['has no rating that can be read', 'have no rating that can be read'],
    mend: 'Fill FireResistanceRating in Pset_DamperTypeFireDamper or Pset_DamperTypeFireSmokeDamper, with the unit or the criteria, e.g. "EI 120" or "2 hours".',
    is: ({ damper }) => damper !== undefined && hasState('unstated', 'unreadable')(damper),
  },
];

function nothingAtAll({ airElements, barriers }: Federation): Lack[] {
  const none = (code: string, what: string, mend: string): Lack => ({
    code,
    count: 0,
    of: 0,
    what,
    mend,
    examples: [],
  });
  const lacks: Lack[] = [];
  if (airElements.length === 0) {
    lacks.push(
      none(
        'no-ductwork',
        'No ductwork was found.',
        'Add the file with the ventilation; export ducts as IfcDuctSegment, IfcDuctFitting and IfcDamper (IFC2X3: flow elements with an IfcDuctSegmentType, IfcDuctFittingType or IfcDamperType).',
      ),
    );
  }
  if (barriers.length === 0) {
    lacks.push(
      none(
        'no-barriers',
        'No walls, floors or roofs were found.',
        'Add the architectural file of the same building; export walls, slabs and roofs as IfcWall, IfcSlab and IfcRoof with a body.',
      ),
    );
  } else if (barriers.every((barrier) => barrier.openings.length === 0)) {
    lacks.push(
      none(
        'no-openings',
        'No opening elements were found in any wall, floor or roof.',
        'Model the hole for each duct as IfcOpeningElement that voids its wall or slab through IfcRelVoidsElement; a hole that is part of the body has to be measured instead.',
      ),
    );
  }
  return lacks;
}

function unread(models: Federation['models']): Lack[] {
  const skipped = models.reduce((sum, m) => sum + m.counts.skipped, 0);
  const unclassified = models.reduce((sum, m) => sum + m.counts.unclassified, 0);
  const read = models.reduce((sum, { counts: c }) => {
    return sum + c.ducts + c.fittings + c.dampers + c.silencers + c.terminals + c.barriers;
  }, 0);
  const lacks: Lack[] = [];
  if (skipped > 0) {
    lacks.push({
      code: 'not-read',
      count: skipped,
      of: read + skipped,
      what: `${skipped} of ${counted(read + skipped, 'piece of ductwork or barrier', 'pieces of ductwork and barriers')} could not be read, so will not be checked.`,
      mend: 'See the reasons under each model; export the element again with a Body representation of solids or closed faces.',
      examples: [],
    });
  }
  if (unclassified > 0) {
    lacks.push({
      code: 'not-classified',
      count: unclassified,
      of: unclassified,
      what: `${counted(unclassified, 'flow element')} may or may not be ductwork, so will not be checked.`,
      mend: 'Export ducts as IfcDuctSegment, IfcDuctFitting or IfcDamper, or give the flow element a type of that trade (IfcDuctSegmentType, IfcDuctFittingType, IfcDamperType).',
      examples: [],
    });
  }
  return lacks;
}
