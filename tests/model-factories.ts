import { facingEndsKey } from '../src/find/keys.js';
import type {
  BarrierFacts,
  Clearance,
  Compartment,
  Crossings,
  DamperFacts,
  DoorFacts,
  DuctFacts,
  EnclosureGap,
  FaceFacts,
  FaceObstacle,
  FacingEnds,
  Gaps,
  Leak,
  ModelInfo,
  Neighbour,
  OpeningFacts,
  Penetration,
  Rating,
  Run,
  Stretch,
  StretchPart,
} from '../src/model.js';
import { type BriefChoices, ProjectBriefSchema } from '../src/rules/project-brief.js';

/** Small whole things of the data model; each takes what a test is about, the rest is plain. */

export const rating = (changes: Partial<Rating> = {}): Rating => ({
  state: 'stated',
  text: '-/120/120',
  loadbearing: 'none',
  integrity: 120,
  insulation: 120,
  duration: null,
  from: 'occurrence',
  ...changes,
});

const NOTHING = { loadbearing: null, integrity: null, insulation: null, duration: null } as const;
export const UNSTATED = rating({ ...NOTHING, state: 'unstated', text: null, from: null });
export const UNREADABLE = rating({ ...NOTHING, state: 'unreadable', text: 'FR 1hr (TBC)' });
export const NOT_REQUIRED = rating({ ...NOTHING, state: 'notRequired', text: null });

export const barrier = (changes: Partial<BarrierFacts> = {}): BarrierFacts => ({
  model: 'm2',
  globalId: 'W1',
  name: 'Wall 1',
  kind: 'wall',
  storey: null,
  thickness: 128,
  leaves: [],
  drawnThickness: changes.thickness === undefined ? 128 : changes.thickness,
  leafThickness: changes.thickness === undefined ? 128 : changes.thickness,
  leafFrom: 'geometry',
  leafProblem: null,
  buildUp: [],
  buildUpAlong: null,
  boards: null,
  construction: 'steelStud',
  layers: [],
  layersThickness: null,
  rating: rating(),
  drawing: null,
  head: null,
  inferredFrom: null,
  ...changes,
});

export const duct = (changes: Partial<DuctFacts> = {}): DuctFacts => ({
  model: 'm1',
  globalId: 'D1',
  name: 'Duct 1',
  element: 'segment',
  shape: 'rectangular',
  width: 600,
  height: 400,
  diameter: null,
  sectionFrom: 'profile',
  sectionResidual: null,
  sectionProblem: null,
  wall: {
    outline: 'sheet',
    evidence: 'nothing in the model says that it is insulated',
    sheet: null,
    insulation: null,
    lining: null,
  },
  sizes: { inside: null, sheet: null, insulation: null },
  material: 'steel',
  axis: [
    [3000, -2500, 2000],
    [3000, 2500, 2000],
  ],
  run: null,
  system: 'SA',
  systemType: 'AIRCONDITIONING',
  systemNames: [],
  properties: [],
  ratings: { required: null, reached: null },
  stated: { width: null, height: null, diameter: null },
  ...changes,
});

export const opening = (changes: Partial<OpeningFacts> = {}): OpeningFacts => ({
  model: 'm2',
  globalId: 'O1',
  shape: 'rectangular',
  width: 660,
  height: 460,
  from: 'element',
  ...changes,
});

export const gaps = (changes: Partial<Gaps> = {}): Gaps => ({
  top: 30,
  bottom: 30,
  left: 30,
  right: 30,
  min: 30,
  max: 30,
  facing: {},
  ...changes,
});

export const NO_GAPS = gaps({ top: null, bottom: null, left: null, right: null, min: null, max: null });

/** A face with a joint 1 m before it, nothing near the duct, in a room. */
export const face = (changes: Partial<FaceFacts> = {}): FaceFacts => ({
  joint: { distance: 1000, from: 'ports', to: null },
  obstacles: [],
  towards: 'south',
  room: 'Store',
  shaft: false,
  roomWidth: 3000,
  ...changes,
});

/** 90 mm beside the duct from 50 mm before the face on. */
export const obstacle = (changes: Partial<FaceObstacle> = {}): FaceObstacle => ({
  ...{ model: 'm1', globalId: 'B1', kind: 'pipe', name: 'Pipe 1', side: 'right', distance: 90, clear: [[50, 90]] },
  ...changes,
});

/** In line with the duct, 250 mm before the face. */
export const inLine = (changes: Partial<FaceObstacle> = {}): FaceObstacle =>
  obstacle({
    ...{ globalId: 'W9', kind: 'wall', name: 'Wall 9', side: null, distance: 0, clear: [[250, 0]] },
    ...changes,
  });

/** A 600 × 400 duct square through a rated wall, 30 mm of air on every side. */
export const penetration = (changes: Partial<Penetration> = {}): Penetration => ({
  id: 'P-0001',
  key: 'key-1',
  tag: 'K7F2-9',
  inferredFrom: null,
  crossing: 'through',
  duct: duct(),
  elements: [{ model: 'm1', globalId: 'D1' }],
  dampers: [],
  damperOutside: null,
  barrier: barrier(),
  opening: opening(),
  gaps: gaps(),
  gapsTo: 'sheet',
  neighbours: [],
  others: [],
  around: [],
  jointDistance: 1000,
  jointFrom: 'ports',
  faces: [face(), face({ towards: 'north' })],
  headGap: null,
  skew: 0,
  position: [3000, 0, 2000],
  frame: { normal: [0, 1, 0], right: [1, 0, 0], up: [0, 0, 1] },
  outlines: {
    duct: [
      [
        [-300, -200],
        [300, -200],
        [300, 200],
        [-300, 200],
      ],
    ],
    opening: [],
  },
  storey: null,
  place: { grid: null, rooms: [null, null] },
  compartments: [null, null],
  treatment: { kind: 'unknown', evidence: null, layers: null, integrity: null, insulation: null },
  ...changes,
});

/** A fire damper in the middle of the wall, of the size of the duct, that says all there is to say. */
export const damper = (changes: Partial<DamperFacts> = {}): DamperFacts => ({
  model: 'm1',
  globalId: 'V',
  name: 'Damper 1',
  typeName: null,
  purpose: 'fire',
  rating: rating(),
  orientation: 'both',
  fireSides: 'both',
  actuation: { type: 'SPRING', closure: null, control: null, fusibleLink: null },
  size: { width: 600, height: 400, diameter: null, from: 'duct' },
  offset: 0,
  standsOut: [50, 50],
  construction: { side: 'top', kind: 'slab', distance: 300, element: { model: 'm2', globalId: 'S1' } },
  access: { panel: { model: 'm1', globalId: 'A1' }, distance: 200, withinReach: true },
  ...changes,
});

export const treated = (kind: Penetration['treatment']['kind']): Pick<Penetration, 'treatment'> => ({
  treatment: { kind, evidence: null, layers: null, integrity: null, insulation: null },
});

const ENDS: FacingEnds['ends'] = [
  { model: 'm1', globalId: 'E1' },
  { model: 'm1', globalId: 'E2' },
];

export const facingEnds = (changes: Partial<FacingEnds> = {}): FacingEnds => ({
  key: facingEndsKey((changes.ends ?? ENDS).map(({ globalId }) => globalId)),
  barrier: barrier(),
  ends: ENDS,
  system: 'SA',
  storey: null,
  position: [0, 0, 2000],
  distance: 128,
  ...changes,
});

/** Between the walls W1 and W2. */
export const leak = (width: number): Leak => ({
  at: [0, 3750, 1200],
  width,
  between: [
    { model: 'm2', globalId: 'W1' },
    { model: 'm2', globalId: 'W2' },
  ],
});

export const compartment = (changes: Partial<Compartment> = {}): Compartment => ({
  id: 'C-0001',
  name: 'Ground floor',
  from: 'loop',
  storey: null,
  areaM2: 22.04,
  barriers: [{ model: 'm2', globalId: 'W1' }],
  leastRating: rating(),
  spaces: [],
  doors: [],
  outlines: [
    [
      [100, 100],
      [5900, 100],
      [5900, 3900],
      [100, 3900],
    ],
  ],
  holes: [],
  floor: { state: 'ground', barriers: [], leastRating: null, openM2: 0 },
  ceiling: { state: 'rated', barriers: [], leastRating: rating(), openM2: 0 },
  walled: true,
  closed: true,
  leaks: [],
  shaft: null,
  enclosure: { complete: true, leastRating: rating(), reasons: [] },
  ...changes,
});

/** In the wall W1. */
export const door = (changes: Partial<DoorFacts> = {}): DoorFacts => ({
  model: 'm2',
  globalId: 'D1',
  name: 'Door 1',
  rating: rating({ text: 'EI 30', integrity: 30, insulation: 30 }),
  at: [3000, 0, 1050],
  barrier: { model: 'm2', globalId: 'W1' },
  ...changes,
});

/** A compartment that its space calls a shaft. */
export const shaft = (complete: boolean | null, ...gaps: readonly EnclosureGap[]): Compartment =>
  compartment({
    name: 'Shaft 1',
    shaft: true,
    spaces: [{ model: 'm2', globalId: 'S1' }],
    enclosure: { complete, leastRating: rating(), reasons: gaps.map((gap) => ({ gap, elements: [] })) },
  });

/** All barriers that the crossings name, and no others unless they are given. */
export function crossings(changes: Partial<Crossings> = {}): Crossings {
  const penetrations = changes.penetrations ?? [];
  const facing = changes.facingEnds ?? [];
  const named = [...penetrations, ...facing].map((one) => one.barrier);
  const barriers = [...new Map(named.map((one) => [`${one.model}/${one.globalId}`, one])).values()];
  return {
    barriers,
    penetrations,
    facingEnds: facing,
    openings: [],
    runs: [],
    access: [],
    compartments: [],
    doors: [],
    apart: [],
    ...changes,
  };
}

export const modelInfo = (counts: Partial<ModelInfo['counts']> = {}): ModelInfo => ({
  id: 'm1',
  file: 'services.ifc',
  schema: 'IFC4',
  sha256: '0'.repeat(64),
  projectGlobalId: null,
  lengthUnit: 'MILLIMETRE',
  application: null,
  writtenAt: null,
  counts: {
    ducts: 1,
    fittings: 0,
    dampers: 0,
    silencers: 0,
    terminals: 0,
    barriers: 0,
    barriersOfParts: 0,
    openings: 0,
    otherServices: 0,
    skipped: 0,
    unclassified: 0,
    ...counts,
  },
  problems: [],
});

export const stretchPart = (changes: Partial<StretchPart> = {}): StretchPart => ({
  model: 'm1',
  globalId: 'D1',
  name: 'Duct 1',
  element: 'segment',
  storey: null,
  from: [0, 0, 2500],
  to: [3000, 0, 2500],
  length: 3000,
  outside: false,
  joins: [],
  measures: null,
  protection: { kind: 'blanket', evidence: 'a drawing', layers: 2, integrity: 120, insulation: 120 },
  ...changes,
});

/** A concrete slab 200 mm over the duct. */
export const clearance = ({
  obstacle,
  ...changes
}: Omit<Partial<Clearance>, 'obstacle'> & { readonly obstacle?: Partial<Neighbour> } = {}): Clearance => ({
  obstacle: {
    ...{ model: 'm2', globalId: 'S1', name: 'Slab', what: 'barrier', kind: 'floor', combustible: false },
    ...{ construction: 'concrete', run: null, protection: null, ...obstacle },
  },
  side: 'top',
  distance: 200,
  from: 'sheet',
  outline: 'sheet',
  at: [1500, 0, 2900],
  length: 2500,
  elements: [{ model: 'm1', globalId: 'D1' }],
  ...changes,
});

export const stretch = (changes: Partial<Stretch> = {}): Stretch => ({
  id: 'R-001.1',
  compartment: 'C-0001',
  outside: false,
  parts: [stretchPart()],
  ends: [{ penetration: 'P-0001', part: 0 }],
  serves: [],
  looseEnds: [],
  length: 3000,
  clearances: [],
  ...changes,
});

/** From the compartment C-0001, which it serves, through the penetration P-0001 into C-0002, protected all along. */
export const run = (changes: Partial<Run> = {}): Run => ({
  id: 'R-001',
  system: 'SA',
  systems: ['SA'],
  elements: [{ model: 'm1', globalId: 'D1' }],
  joints: [],
  serves: [{ model: 'm1', globalId: 'T1' }],
  length: 6000,
  branches: [],
  risers: [],
  stretches: [
    stretch({ serves: [{ model: 'm1', globalId: 'T1' }] }),
    stretch({ id: 'R-001.2', compartment: 'C-0002' }),
  ],
  ...changes,
});

/** Of a brief that chooses nothing. */
export const NO_CHOICES: BriefChoices = ProjectBriefSchema.parse({
  kind: 'project-brief',
  id: 'chooses-nothing',
  version: '1',
}).choices;
