/**
 * What this job needs from models, as specifications of the Information Delivery Specification (IDS 1.0, buildingSMART).
 * Entity names, property sets and data types are those of each schema; in IFC2X3, which has no entities for ducts and
 * dampers, IDS names them as IFC4 does (its IFC2X3 mapping table). What IDS has no words for is left out: shapes,
 * openings, ports.
 */
import { fileUnder } from '../collect.js';
import { QUESTIONS } from './readiness-questions.js';

export const IFC_VERSIONS = ['IFC2X3', 'IFC4', 'IFC4X3_ADD2'] as const;
export type IfcVersion = (typeof IFC_VERSIONS)[number];

/** Several values: any of them. */
type Value = string | readonly string[];

export type Facet =
  | { readonly is: 'entity'; readonly name: Value; readonly predefinedType?: Value }
  | { readonly is: 'partOf'; readonly relation?: string; readonly entity: Value }
  | {
      readonly is: 'attribute';
      readonly name: string;
      readonly value?: Value;
      readonly cardinality?: 'required' | 'prohibited';
    }
  | {
      readonly is: 'property';
      readonly set: string;
      readonly name: string;
      readonly dataType: string;
      readonly value?: Value;
    }
  | { readonly is: 'material' };

export interface Specification {
  readonly name: string;
  readonly versions: readonly IfcVersion[];
  /** Code of the lack that `readiness` reports where a model does not meet it. */
  readonly identifier: string;
  /** How to meet it in the authoring program. */
  readonly instructions: string;
  readonly applicability: readonly Facet[];
  readonly requirements: readonly Facet[];
}

interface Rule {
  readonly name: string;
  readonly lack: string;
  /** The remedy of the lack when left out. */
  readonly instructions?: string;
  readonly in?: readonly IfcVersion[];
  readonly facets: (version: IfcVersion) => readonly [applicability: readonly Facet[], requirements: readonly Facet[]];
}

const SINCE_IFC4 = ['IFC4', 'IFC4X3_ADD2'] as const;

const WALLS: Readonly<Record<IfcVersion, Value>> = {
  IFC2X3: ['IFCWALL', 'IFCWALLSTANDARDCASE'],
  IFC4: ['IFCWALL', 'IFCWALLSTANDARDCASE', 'IFCWALLELEMENTEDCASE'],
  IFC4X3_ADD2: ['IFCWALL', 'IFCWALLSTANDARDCASE'],
};
const SLABS: Readonly<Record<IfcVersion, Value>> = {
  IFC2X3: 'IFCSLAB',
  IFC4: ['IFCSLAB', 'IFCSLABSTANDARDCASE', 'IFCSLABELEMENTEDCASE'],
  IFC4X3_ADD2: 'IFCSLAB',
};
const barriers = (version: IfcVersion): string[] => [WALLS[version], SLABS[version], 'IFCROOF'].flat();
const DUCTWORK = ['IFCDUCTSEGMENT', 'IFCDUCTFITTING', 'IFCDAMPER', 'IFCDUCTSILENCER'] as const;
/** PEnum_DamperOrientation without those that say nothing. */
const ORIENTATIONS = ['VERTICAL', 'HORIZONTAL', 'VERTICALORHORIZONTAL'] as const;
/** IfcDamperTypeEnum without the two that say nothing. */
const DAMPER_TYPES = [
  'FIREDAMPER',
  'FIRESMOKEDAMPER',
  'SMOKEDAMPER',
  'CONTROLDAMPER',
  'BALANCINGDAMPER',
  'BACKDRAFTDAMPER',
  'RELIEFDAMPER',
  'GRAVITYDAMPER',
  'GRAVITYRELIEFDAMPER',
  'BLASTDAMPER',
  'FUMEHOODEXHAUST',
] as const;

const entity = (name: Value, predefinedType?: Value): Facet =>
  predefinedType === undefined ? { is: 'entity', name } : { is: 'entity', name, predefinedType };
const property = (set: string, name: string, dataType: string, value?: Value): Facet =>
  value === undefined ? { is: 'property', set, name, dataType } : { is: 'property', set, name, dataType, value };
const inStorey: Facet = { is: 'partOf', entity: 'IFCBUILDINGSTOREY' };

const ratingIn = (set: string, otherwise?: string): string =>
  `Fill FireRating in ${set} of the element or its type with the agreed rating and its criteria, e.g. "-/120/120" or "EI 120"${otherwise ? `, ${otherwise}` : ''}; no remarks.`;

/** Walls and slabs can say that they separate no compartments, and then need no rating. */
const separating = (kind: string, names: typeof WALLS, set: string): Rule[] => [
  {
    name: `${kind} say whether they separate fire compartments`,
    lack: 'rating-unstated',
    instructions: `Set Compartmentation in ${set} of the element or its type: TRUE where it has to hold back fire, FALSE where it has not.`,
    facets: (v) => [[entity(names[v])], [property(set, 'Compartmentation', 'IFCBOOLEAN')]],
  },
  {
    name: `${kind} that separate fire compartments state their fire rating`,
    lack: 'rating-unstated',
    instructions: ratingIn(set),
    facets: (v) => [
      [entity(names[v]), property(set, 'Compartmentation', 'IFCBOOLEAN', 'true')],
      [property(set, 'FireRating', 'IFCLABEL')],
    ],
  },
];

const RULES: readonly Rule[] = [
  ...separating('Walls', WALLS, 'Pset_WallCommon'),
  ...separating('Floors', SLABS, 'Pset_SlabCommon'),
  {
    name: 'Roofs state their fire rating',
    lack: 'rating-unstated',
    instructions: ratingIn('Pset_RoofCommon', '"-/-/-" where none is asked for'),
    facets: () => [[entity('IFCROOF')], [property('Pset_RoofCommon', 'FireRating', 'IFCLABEL')]],
  },
  {
    name: 'Curtain walls state their fire rating',
    lack: 'rating-unstated',
    instructions: ratingIn('Pset_CurtainWallCommon', '"-/-/-" where none is asked for'),
    facets: () => [[entity('IFCCURTAINWALL')], [property('Pset_CurtainWallCommon', 'FireRating', 'IFCLABEL')]],
  },
  {
    name: 'Walls, floors and roofs name their materials',
    lack: 'layers-missing',
    facets: (v) => [[entity(barriers(v))], [{ is: 'material' }]],
  },
  {
    name: 'Walls, floors and roofs belong to a storey',
    lack: 'barrier-storey-missing',
    facets: (v) => [[entity(barriers(v))], [inStorey]],
  },
  {
    name: 'Duct segments state their nominal width or diameter',
    lack: 'size-unstated',
    facets: () => [
      [entity('IFCDUCTSEGMENT')],
      [property('Pset_DuctSegmentTypeCommon', 'NominalDiameterOrWidth', 'IFCPOSITIVELENGTHMEASURE')],
    ],
  },
  {
    name: 'Rectangular and flat-oval duct segments state their nominal height',
    lack: 'size-unstated',
    facets: (v) => [
      [
        entity('IFCDUCTSEGMENT'),
        property('Pset_DuctSegmentTypeCommon', v === 'IFC4X3_ADD2' ? 'CrossSectionShape' : 'Shape', 'IFCLABEL', [
          'RECTANGULAR',
          'FLATOVAL',
        ]),
      ],
      [property('Pset_DuctSegmentTypeCommon', 'NominalHeight', 'IFCPOSITIVELENGTHMEASURE')],
    ],
  },
  {
    name: 'Ductwork belongs to a system',
    lack: 'system-missing',
    facets: (v) => [
      [entity(DUCTWORK)],
      [
        {
          is: 'partOf',
          relation: 'IFCRELASSIGNSTOGROUP',
          entity: v === 'IFC2X3' ? 'IFCSYSTEM' : 'IFCDISTRIBUTIONSYSTEM',
        },
      ],
    ],
  },
  {
    name: 'Distribution systems say what they are for',
    lack: 'system-type-missing',
    in: SINCE_IFC4,
    facets: () => [
      [entity('IFCDISTRIBUTIONSYSTEM')],
      [
        { is: 'attribute', name: 'PredefinedType' },
        { is: 'attribute', name: 'PredefinedType', value: 'NOTDEFINED', cardinality: 'prohibited' },
      ],
    ],
  },
  {
    name: 'Ductwork names its material',
    lack: 'duct-material-unknown',
    facets: () => [[entity(DUCTWORK)], [{ is: 'material' }]],
  },
  {
    name: 'Ductwork belongs to a storey',
    lack: 'duct-storey-missing',
    facets: () => [[entity(DUCTWORK)], [inStorey]],
  },
  {
    name: 'Dampers say what they are for',
    lack: 'damper-purpose-unknown',
    facets: () => [[entity('IFCDAMPER')], [entity('IFCDAMPER', DAMPER_TYPES)]],
  },
  {
    name: 'Fire dampers state their fire resistance',
    lack: 'damper-rating-unknown',
    facets: () => [
      [entity('IFCDAMPER', 'FIREDAMPER')],
      [property('Pset_DamperTypeFireDamper', 'FireResistanceRating', 'IFCLABEL')],
    ],
  },
  {
    name: 'Fire and smoke dampers state their fire resistance',
    lack: 'damper-rating-unknown',
    // The set of IFC2X3 has no place for it.
    in: SINCE_IFC4,
    facets: () => [
      [entity('IFCDAMPER', 'FIRESMOKEDAMPER')],
      [property('Pset_DamperTypeFireSmokeDamper', 'FireResistanceRating', 'IFCLABEL')],
    ],
  },
  {
    name: 'Fire dampers say whether they are for walls or floors',
    lack: 'damper-orientation-unknown',
    facets: () => [
      [entity('IFCDAMPER', ['FIREDAMPER', 'FIRESMOKEDAMPER'])],
      [property('Pset_DamperTypeCommon', 'Orientation', 'IFCLABEL', ORIENTATIONS)],
    ],
  },
  {
    name: 'Fire dampers say what shuts them',
    lack: 'damper-actuation-unknown',
    facets: () => [
      [entity('IFCDAMPER', 'FIREDAMPER')],
      [property('Pset_DamperTypeFireDamper', 'ActuationType', 'IFCLABEL')],
    ],
  },
  {
    name: 'Fire and smoke dampers say what shuts them',
    lack: 'damper-actuation-unknown',
    facets: (version) => [
      [entity('IFCDAMPER', 'FIRESMOKEDAMPER')],
      [property('Pset_DamperTypeFireSmokeDamper', version === 'IFC2X3' ? 'ControlType' : 'ActuationType', 'IFCLABEL')],
    ],
  },
];

/** One specification for each requirement and each way of naming it: schemas that name it alike share one. */
export const INFORMATION_REQUIREMENTS: readonly Specification[] = RULES.flatMap((rule) => {
  const byWording = new Map<string, IfcVersion[]>();
  for (const version of rule.in ?? IFC_VERSIONS) {
    const wording = JSON.stringify(rule.facets(version));
    fileUnder(byWording, wording, version);
  }
  return [...byWording.values()].map((versions) => {
    const [applicability, requirements] = rule.facets(versions[0]!);
    const { name, lack: identifier, instructions = mendOf(identifier) } = rule;
    return { name, versions, identifier, instructions, applicability, requirements };
  });
});

function mendOf(code: string): string {
  const question = QUESTIONS.find((q) => q.code === code);
  if (!question) throw new Error(`readiness asks nothing called ${code}`);
  return question.mend;
}
