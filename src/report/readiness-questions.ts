/**
 * What readiness asks of each element, and how to mend what it lacks where it was made. Entities and property sets by
 * their names in IFC4; where IFC2X3 has another way, both are named.
 */
import type { AirElement, Barrier, DoorFacts, Rating } from '../model.js';

export interface Question<T> {
  readonly code: string;
  /** Completes "3 of 12 barriers …": singular, plural. */
  readonly lacks: readonly [string, string];
  readonly mend: string;
  readonly is: (element: T) => boolean;
}

const hasState =
  (...states: Rating['state'][]) =>
  ({ rating }: { readonly rating: Rating }): boolean =>
    states.includes(rating.state);

/** A layer whose material has no name says nothing of the construction. */
export const namesMaterial = (layers: Barrier['layers']): boolean => layers.some(({ material }) => material !== '');

/** Has layers that are told from the rated leaf. */
const isLined = (layers: Barrier['layers']): boolean =>
  layers.length > 1 && layers.some(({ role }) => role === 'lining' || role === 'cavity');

export const BARRIER_QUESTIONS: readonly Question<Barrier>[] = [
  {
    code: 'rating-unstated',
    lacks: ['states no fire rating', 'state no fire rating'],
    // Of the sets named here, only those of walls and slabs have Compartmentation.
    mend: 'Fill FireRating in the common property set (Pset_WallCommon, Pset_SlabCommon, Pset_RoofCommon, Pset_CurtainWallCommon) of the element or its type; where a wall or slab needs none, set Compartmentation to FALSE in Pset_WallCommon or Pset_SlabCommon.',
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
    lacks: ['names no material', 'name no material'],
    mend: 'Give the element or its type an IfcMaterialLayerSet through IfcRelAssociatesMaterial: what a barrier is built of decides which protection was tested for it.',
    is: ({ layers }) => !namesMaterial(layers),
  },
  {
    code: 'layer-thickness-missing',
    lacks: ['has materials without thicknesses', 'have materials without thicknesses'],
    mend: 'Use an IfcMaterialLayerSet with a LayerThickness for every layer instead of a single material or a list.',
    is: ({ layers }) => namesMaterial(layers) && layers.some(({ thickness }) => thickness === undefined),
  },
  {
    code: 'leaf-not-told',
    lacks: [
      'has layers that do not say which of them holds the rating',
      'have layers that do not say which of them holds the rating',
    ],
    mend: 'Give the IfcMaterialLayer that holds the rating the Category LoadBearing, or name the material of every layer, air too: linings and cavities must not count for the thickness that a test is compared with.',
    is: ({ construction, layers }) =>
      construction !== 'unknown' && isLined(layers) && layers.some(({ role }) => role === undefined),
  },
  {
    code: 'layer-order-unknown',
    lacks: [
      'is lined and does not say on which face its layers begin',
      'are lined and do not say on which face their layers begin',
    ],
    mend: 'Associate the layers with each wall or slab through an IfcMaterialLayerSetUsage, with LayerSetDirection, DirectionSense and OffsetFromReferenceLine.',
    is: ({ layers, layersFrom }) => isLined(layers) && layersFrom === undefined,
  },
  {
    code: 'barrier-storey-missing',
    lacks: ['belongs to no storey', 'belong to no storey'],
    mend: 'Put the element into an IfcBuildingStorey through IfcRelContainedInSpatialStructure.',
    is: ({ storey }) => storey === undefined,
  },
];

/** Of doors and windows in rated barriers. */
export const DOOR_QUESTIONS: readonly Question<DoorFacts>[] = [
  {
    code: 'door-rating-unknown',
    lacks: ['has no fire rating that can be read', 'have no fire rating that can be read'],
    mend: 'Fill FireRating in Pset_DoorCommon or Pset_WindowCommon of the element or its type, with its criteria, e.g. "EI 30"; "-/-/-" where none is asked for.',
    is: hasState('unstated', 'unreadable'),
  },
];

export const SEGMENT_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'section-mesh-only',
    lacks: [
      'is a mesh only, so its section has to be measured',
      'are meshes only, so their sections have to be measured',
    ],
    mend: 'Export straight ducts as IfcExtrudedAreaSolid with a rectangle or circle profile, not as faces or triangles.',
    is: ({ bodies }) => !bodies.some((body) => body.kind === 'prism'),
  },
  {
    code: 'size-unstated',
    lacks: ['states no nominal size', 'state no nominal size'],
    mend: 'Fill Shape (IFC4X3: CrossSectionShape), NominalDiameterOrWidth and, where it is not round, NominalHeight in Pset_DuctSegmentTypeCommon: a size that differs from the one drawn is a mistake somewhere.',
    is: ({ stated }) => Object.keys(stated).length === 0,
  },
];

export const AIR_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'system-missing',
    lacks: ['belongs to no system', 'belong to no system'],
    mend: 'Assign it to an IfcDistributionSystem (IFC2X3: IfcSystem) through IfcRelAssignsToGroup.',
    is: ({ system }) => system === undefined,
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

export const SYSTEM_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'system-type-missing',
    lacks: ['is in one whose type is not stated', 'are in such whose type is not stated'],
    mend: 'Use IfcDistributionSystem and set its PredefinedType, e.g. EXHAUST or VENTILATION.',
    is: ({ systemType }) => systemType === undefined || systemType === 'NOTDEFINED',
  },
];

export const DAMPER_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'damper-purpose-unknown',
    lacks: ['does not say what it is for', 'do not say what they are for'],
    mend: 'Set PredefinedType of the IfcDamper or its type, e.g. FIREDAMPER, FIRESMOKEDAMPER, CONTROLDAMPER (IFC2X3: of IfcDamperType).',
    is: ({ damper }) => damper === undefined || damper.purpose === 'unknown',
  },
];

export const FIRE_DAMPER_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'damper-rating-unknown',
    lacks: ['has no rating that can be read', 'have no rating that can be read'],
    mend: 'Fill FireResistanceRating in Pset_DamperTypeFireDamper or Pset_DamperTypeFireSmokeDamper, with the unit or the criteria, e.g. "EI 120" or "2 hours".',
    is: ({ damper }) => damper !== undefined && hasState('unstated', 'unreadable')(damper),
  },
  {
    code: 'damper-orientation-unknown',
    lacks: ['does not say whether it is for a wall or a floor', 'do not say whether they are for a wall or a floor'],
    mend: 'Fill Orientation in Pset_DamperTypeCommon (VERTICAL: for walls, HORIZONTAL: for floors, VERTICALORHORIZONTAL), or state the whole class of the damper, e.g. "EI 60 (ve ho i-o) S"; where both are stated, make them agree.',
    is: ({ damper }) => damper?.orientation === undefined,
  },
  {
    code: 'damper-actuation-unknown',
    lacks: ['does not say what shuts it', 'do not say what shuts them'],
    mend: 'Fill ActuationType, or FusibleLinkTemperature, in Pset_DamperTypeFireDamper or Pset_DamperTypeFireSmokeDamper (IFC2X3 has only ControlType for fire and smoke dampers).',
    is: ({ damper }) => damper?.actuation === undefined,
  },
];

/** Asked where no file has any access panel at all; where some have, each damper is checked against the nearest. */
export const ACCESS_QUESTIONS: readonly Question<AirElement>[] = [
  {
    code: 'damper-access-unknown',
    lacks: ['has no access panel in the models', 'have no access panels in the models'],
    mend: 'Model the access panels as IfcDuctFitting with "access panel" in the name or the type name, on the duct next to each damper.',
    is: () => true,
  },
];

/** By the code of the problem that reading noted. */
export const CONTRADICTIONS: readonly (Omit<Question<never>, 'is'> & { readonly noun: string })[] = [
  {
    code: 'element-repeated',
    noun: 'element',
    lacks: ['is given twice, in the same place', 'are given twice, in the same place'],
    mend: 'Export each element in one file only, e.g. loadbearing walls with the structure and not with the architecture too.',
  },
  {
    code: 'globalid-repeated',
    noun: 'element',
    lacks: ['has the GlobalId of another in another place', 'have the GlobalIds of others in other places'],
    mend: 'Give each copied element a GlobalId of its own; where a file is out of date, export it again.',
  },
  {
    code: 'rating-disagrees',
    noun: 'barrier',
    lacks: ['is rated otherwise elsewhere', 'are rated otherwise elsewhere'],
    mend: 'Agree which FireRating holds and state it once, in the file whose author answers for it.',
  },
  {
    code: 'no-map-conversion',
    noun: 'file',
    lacks: [
      'has no map conversion though others have such that differ',
      'have no map conversion though others have such that differ',
    ],
    mend: 'Export it with its IfcMapConversion, or all files from one origin.',
  },
  {
    code: 'map-differs',
    noun: 'file',
    lacks: ['has map coordinates of another map', 'have map coordinates of another map'],
    mend: 'Export all files with one IfcProjectedCRS and the IfcMapConversion that belongs to it.',
  },
];

/** Code and remedy of every question, whatever it is asked of. */
export const QUESTIONS: readonly Pick<Question<never>, 'code' | 'mend'>[] = [
  ...BARRIER_QUESTIONS,
  ...DOOR_QUESTIONS,
  ...SEGMENT_QUESTIONS,
  ...AIR_QUESTIONS,
  ...SYSTEM_QUESTIONS,
  ...DAMPER_QUESTIONS,
  ...FIRE_DAMPER_QUESTIONS,
];
