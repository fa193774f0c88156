/**
 * The facts that rules may speak of, in one place: CEL expressions are type-checked against this table when a document
 * is loaded, messages take their placeholders from it, and the JSON Schema of examples is made from it.
 *
 * A fact that is not known is left out of the object, so that CEL answers "No such key", which becomes `cantTell`.
 */
import { AIR_ELEMENT_KINDS, CONSTRUCTIONS, JOINT_EVIDENCE, LEAF_PROBLEMS, SERVICES, type Unit } from '../model.js';

/** What a check looks at, one subject after the other. */
export const EACH = [
  'barrier',
  'penetration',
  'gap',
  'neighbour',
  'facingEnds',
  'leak',
  'run',
  'lapse',
  'door',
  'compartment',
  'model',
] as const;
export type Each = (typeof EACH)[number];

export type FactValue = number | string | boolean | readonly string[];
export interface FactObject {
  readonly [name: string]: FactValue | FactObject | undefined;
}

export interface Fact {
  readonly type: 'number' | 'text' | 'yesNo' | 'texts';
  /** Noun phrase that fits into "… is not known". */
  readonly says: string;
  readonly unit?: Unit;
  /** All values a text can have; a rule that compares with another one is refused. */
  readonly values?: readonly string[];
  /** The fact that is named as missing when this one can't be worked out. */
  readonly from?: string;
}

export interface FactGroup {
  readonly says: string;
  /** As with a fact. */
  readonly from?: string;
  readonly fields: { readonly [name: string]: Fact | FactGroup };
}

const number = (says: string, unit?: Unit, from?: string): Fact => ({
  type: 'number',
  says,
  ...(unit && { unit }),
  ...(from && { from }),
});
const text = (says: string, values?: readonly string[], from?: string): Fact => ({
  type: 'text',
  says,
  ...(values && { values }),
  ...(from && { from }),
});
const yesNo = (says: string, from?: string): Fact => ({ type: 'yesNo', says, ...(from && { from }) });
const texts = (says: string): Fact => ({ type: 'texts', says });
const group = (says: string, fields: FactGroup['fields'], from?: string): FactGroup => ({
  says,
  fields,
  ...(from && { from }),
});

const STATUSES = ['tested', 'unverified', 'demonstration'];
const RATING_STATES = ['stated', 'durationOnly', 'notRequired', 'unstated', 'unreadable'];
/** Minutes; 0 where the text asks nothing of a criterion. */
const criteria = (of: string) => ({
  loadbearing: number(`the loadbearing minutes of ${of}`, 'min'),
  integrity: number(`the integrity minutes of ${of}`, 'min'),
  insulation: number(`the insulation minutes of ${of}`, 'min'),
  duration: number(`the duration of ${of} without criteria`, 'min'),
});

const barrier = group('the barrier', {
  globalId: text('the GlobalId of the barrier'),
  name: text('the name of the barrier'),
  kind: text('the kind of barrier', ['wall', 'floor', 'roof']),
  storey: text('the storey of the barrier'),
  thickness: number("the thickness of the barrier's rated leaf", 'mm'),
  drawnThickness: number('the thickness that the barrier is drawn with', 'mm'),
  leafFrom: text('what the thickness of the rated leaf was taken from', ['layers', 'geometry'], 'barrier.thickness'),
  leafProblem: text('why the rated leaf could not be told from what lines it', LEAF_PROBLEMS, 'barrier.thickness'),
  boardedSides: number('on how many sides of its frame the barrier has boards'),
  layersStated: yesNo('whether the layers of the barrier state how thick they are'),
  layersThickness: number('the thickness of all layers of the barrier', 'mm'),
  layersDifference: number('how far the layers are off the thickness of the barrier', 'mm', 'barrier.drawnThickness'),
  construction: text(
    'the construction of the barrier',
    CONSTRUCTIONS.filter((construction) => construction !== 'unknown'),
  ),
  leaves: number('how many leaves the barrier has'),
  rated: yesNo('whether the barrier is fire-rated', 'barrier.rating'),
  minutes: number("the minutes of the barrier's rating: integrity, or its one duration", 'min', 'barrier.rating'),
  rating: group('the fire rating of the barrier', {
    state: text('how the fire rating is stated', RATING_STATES),
    text: text('the text of the fire rating'),
    ...criteria("the barrier's fire rating"),
    from: text('where the fire rating was found', ['occurrence', 'type', 'material', 'brief']),
  }),
  drawing: group('the rating that a drawing gives the barrier', {
    given: yesNo('whether the brief lists a drawing that rates the barrier beside the model'),
    name: text('the drawing and its revision'),
    text: text("the text of the drawing's rating"),
    agrees: yesNo('whether the model and the drawing agree', 'barrier.rating'),
  }),
  head: group('how the wall meets the structure above', {
    measured: yesNo('whether the head of the barrier was looked at', 'barrier.head'),
    known: yesNo('whether there is structure above the wall in the models', 'barrier.head'),
    gap: number('the gap between the wall and the structure above', 'mm', 'barrier.head'),
    length: number('the length of wall that stops short', 'mm', 'barrier.head'),
    passing: number('how many services pass over the wall', undefined, 'barrier.head'),
    penetrations: text('which penetrations lie under the gap', undefined, 'barrier.head'),
    extendToStructureGiven: yesNo('whether the wall states ExtendToStructure', 'barrier.head'),
    extendToStructure: text('what ExtendToStructure of the wall is', ['TRUE', 'FALSE'], 'barrier.head'),
  }),
  penetrations: number('how many penetrations the barrier has'),
  facingEnds: number('how many pairs of duct ends face each other across the barrier'),
});

const RATING_OF_TREATMENT = 'penetration.treatment.rating';

const penetration = group('the penetration', {
  id: text('the id of the penetration'),
  tag: text('the tag of the penetration'),
  crossing: text('how the duct crosses the barrier', ['through', 'endsInside', 'partial']),
  jointDistance: number('how far the nearest joint of the duct is from the barrier', 'mm'),
  jointFrom: text('what shows the joint', JOINT_EVIDENCE, 'penetration.jointDistance'),
  narrowestGap: number('the narrowest gap round the duct', 'mm'),
  skew: number('the skew of the crossing', 'deg'),
  gapsTo: text('what the gaps are measured to', ['sheet', 'insulation']),
  storey: text('the storey of the penetration'),
  opening: group('the opening', {
    present: yesNo('whether an opening is modelled'),
    shape: text('the shape of the opening', ['rectangular', 'circular', 'other']),
    width: number('the width of the opening', 'mm'),
    height: number('the height of the opening', 'mm'),
    from: text('what the opening was found as', ['element', 'hole']),
  }),
  damper: group('the damper', {
    present: yesNo('whether a damper is modelled at the barrier'),
    purpose: text('what the damper is for', ['fire', 'fireSmoke', 'smoke', 'control']),
    minutes: number('the minutes that the fire damper is rated for', 'min', 'penetration.damper.rating'),
    rating: group('the fire rating of the damper', {
      state: text("how the damper's fire rating is stated", RATING_STATES),
      ...criteria("the damper's fire rating"),
    }),
    name: text('the name of the damper'),
    typeName: text("the name of the damper's type"),
    orientation: text('what barriers the damper is made for', ['wall', 'floor', 'both']),
    orientationFits: yesNo('whether the damper is made for this barrier', 'penetration.damper.orientation'),
    fireSides: text('from which sides the damper may see the fire', ['both', 'one']),
    actuation: text('what shuts the damper'),
    shape: text('the shape of the damper', ['rectangular', 'circular'], 'penetration.damper.size'),
    width: number('the width of the damper', 'mm', 'penetration.damper.size'),
    height: number('the height of the damper', 'mm', 'penetration.damper.size'),
    diameter: number('the diameter of the damper', 'mm', 'penetration.damper.size'),
    sizeFrom: text('what shows the size of the damper', ['geometry', 'property', 'duct', 'casing']),
    offset: number("how far the middle of the damper's casing is from the middle of the barrier", 'mm'),
    standsOut: number('how far the casing stands out of a face of the barrier', 'mm'),
    constructionFound: yesNo('whether a wall, floor or column stands beside the damper'),
    construction: number('the distance from the casing to the construction beside it', 'mm'),
    constructionKind: text('what stands beside the damper', ['slab', 'corner', 'column']),
    constructionSide: text('on which side of the damper it stands', ['top', 'bottom', 'left', 'right']),
    access: group('the access to the damper', {
      withinReach: yesNo('whether the damper is within reach of an access panel', 'penetration.damper.access'),
      found: yesNo('whether the run has an access panel near the damper'),
      distance: number('the distance from the damper to the nearest access panel', 'mm'),
    }),
  }),
  damperOutside: group('the damper that stands clear of the barrier', {
    present: yesNo('whether a fire damper stands clear of the barrier, with none in it'),
    name: text('the name of the damper that stands clear of the barrier'),
    distance: number('the distance from the barrier to that damper', 'mm'),
  }),
  protected: yesNo('whether the duct is protected over its run', 'penetration.treatment'),
  treatment: group('whether there is a fire damper or protection', {
    kind: text('whether it is a damper or which protection', [
      'blanket',
      'board',
      'fireResistingDuct',
      'damper',
      'both',
      'none',
    ]),
    layers: number('the number of layers of the protection'),
    integrity: number('the integrity minutes of what is there', 'min', RATING_OF_TREATMENT),
    insulation: number('the insulation minutes of what is there', 'min', RATING_OF_TREATMENT),
  }),
  required: group(
    'what is asked for here',
    {
      integrity: number('the integrity minutes asked for', 'min', 'barrier.rating'),
      insulation: number('the insulation minutes asked for', 'min', 'barrier.rating'),
    },
    'barrier.rating',
  ),
  others: texts('the kinds of other services in the opening'),
  head: number('the height between the opening and the head of the wall', 'mm'),
  nearest: group('what is nearest to the opening', {
    end: number("the distance to the barrier's own edge", 'mm'),
    slab: number('the distance to a floor or roof', 'mm'),
    corner: number('the distance to a corner with another wall', 'mm'),
    column: number('the distance to a column', 'mm'),
    door: number('the distance to a door or window', 'mm'),
    opening: number('the distance to another opening', 'mm'),
  }),
});

const duct = group('the duct', {
  globalId: text('the GlobalId of the duct'),
  name: text('the name of the duct'),
  element: text('the kind of duct element', AIR_ELEMENT_KINDS),
  shape: text('the shape of the duct', ['rectangular', 'circular', 'oval']),
  width: number('the width of the duct', 'mm'),
  height: number('the height of the duct', 'mm'),
  diameter: number('the diameter of the duct', 'mm'),
  sectionFrom: text('where the section of the duct comes from', ['profile', 'mesh', 'property']),
  sectionResidual: number('how far the measured section is off its shape', 'mm'),
  sectionProblem: text('why the section of the duct is not known', ['noShape', 'notClosed', 'noAxis']),
  wall: group('the wall of the duct', {
    outline: text('what the outline of the duct is the outside of', ['sheet', 'insulation']),
    sheet: number("the thickness of the duct's sheet", 'mm'),
    insulation: number("the thickness of the duct's insulation", 'mm'),
    lining: number("the thickness of the duct's lining", 'mm'),
  }),
  flangeHeight: number("how far the duct's flanges stand out", 'mm', 'brief.flangeHeight'),
  flangeFrom: text(
    "where the height of the duct's flanges is from",
    ['brief', 'flangeTable', 'nowhere'],
    'brief.flangeHeight',
  ),
  material: text('the material of the duct', ['steel', 'stainless', 'aluminium', 'plastic']),
  run: text('the run of the duct'),
  system: text('the system of the duct'),
  systemType: text('the type of the system'),
  service: text('what the system of the duct is for', [...SERVICES, 'none']),
  stated: group('the size stated by properties', {
    given: yesNo('whether properties state a size'),
    difference: number('how far the stated size is off the geometry', 'mm', 'duct.shape'),
    width: number('the stated width of the duct', 'mm'),
    height: number('the stated height of the duct', 'mm'),
    diameter: number('the stated diameter of the duct', 'mm'),
  }),
});

const gap = group('the gap', {
  side: text('the side of the gap', ['top', 'bottom', 'left', 'right']),
  which: text('which gap of all round it is', ['narrowest', 'widest']),
  place: text('the side of the gap, or which it is', ['top', 'bottom', 'left', 'right', 'narrowest', 'widest']),
  value: number('the gap', 'mm'),
  facesService: yesNo('whether the side faces another service instead of the edge of the opening'),
});

const neighbour = group('the neighbouring penetration', {
  id: text('the id of the neighbouring penetration'),
  tag: text('the tag of the neighbouring penetration'),
  name: text('the name of the neighbouring duct'),
  distance: number('the distance between the two ducts', 'mm'),
  sameOpening: yesNo('whether both ducts pass the same opening'),
});

const brief = group('what the project brief chooses', {
  listsSystems: yesNo('whether the project brief lists systems'),
  headMovementGiven: yesNo('whether the brief says how far the structure above moves'),
  headMovement: number('the movement of the structure above that walls must bear', 'mm'),
  openEntry: text('what must be known to tell which entry of the brief holds'),
  resists: text('where the duct must resist fire', ['always', 'whereUndampered'], 'brief.system'),
  fire: text('from which side the duct must resist fire', ['inside', 'outside', 'insideAndOutside']),
  dampers: text("whether the duct's system may have dampers", ['allowed', 'never'], 'brief.system'),
});

const system = group('the tested system, or tested damper, chosen for the penetration', {
  applied: yesNo('whether the chosen tested system is what protects the duct here', 'penetration.treatment'),
  id: text('the id of the tested system', undefined, 'brief.testedSystem'),
  name: text('the name of the tested system', undefined, 'brief.testedSystem'),
  status: text('how far the tested system can be trusted', STATUSES, 'brief.testedSystem'),
  protectionAllowed: yesNo('whether the protection is of the tested kind', 'penetration.treatment'),
  purposeAllowed: yesNo('whether dampers of this purpose were tested', 'penetration.damper.purpose'),
  shapeAllowed: yesNo('whether this shape was tested', 'duct.shape'),
  materialAllowed: yesNo('whether ducts of this material were tested', 'duct.material'),
  elementAllowed: yesNo('whether this kind of duct element was tested'),
  orientationAllowed: yesNo('whether barriers of this orientation were tested'),
  constructionAllowed: yesNo('whether barriers of this construction were tested', 'barrier.construction'),
  thicknessAtLeast: number('the least tested thickness of the barrier', 'mm', 'barrier.construction'),
  widthAtLeast: number('the least tested width', 'mm'),
  heightAtLeast: number('the least tested height', 'mm'),
  diameterAtLeast: number('the least tested diameter', 'mm'),
  widthAtMost: number('the greatest tested width', 'mm'),
  heightAtMost: number('the greatest tested height', 'mm'),
  diameterAtMost: number('the greatest tested diameter', 'mm'),
  gapAtLeast: number('the least tested gap', 'mm'),
  gapAtMost: number('the greatest tested gap', 'mm'),
  skewAtMost: number('the greatest tested skew', 'deg'),
  offsetAtMost: number('the greatest tested distance from the middle of the barrier', 'mm'),
  constructionAtLeast: number('the least tested distance to construction beside the damper', 'mm'),
  fireSidesAllowed: yesNo('whether the damper was tested from both sides of the barrier', 'penetration.fireSide'),
  localBuildUp: number('how far the local build-up reaches from the barrier', 'mm'),
  separationAtLeast: number('the least tested distance between ducts', 'mm'),
  fixingNeeded: yesNo('whether the tested system asks for a choice of fixing', 'brief.testedSystem'),
  fixing: text('the chosen fixing', undefined, 'brief.fixing'),
  fixingShapeAllowed: yesNo('whether the chosen fixing holds on this shape of duct', 'brief.fixing'),
  fixingWidthAtMost: number('the greatest width for the chosen fixing', 'mm'),
  fixingHeightAtMost: number('the greatest height for the chosen fixing', 'mm'),
  fixingDiameterAtMost: number('the greatest diameter for the chosen fixing', 'mm'),
  layersFor: number('how many layers the rating needs'),
  fireSidesStated: yesNo('whether the evidence says from which sides the fire came', 'brief.testedSystem'),
  fireSideAllowed: yesNo('whether it was tested with the fire on the side that is asked for', 'brief.fire'),
  integrity: number('the integrity minutes that these layers reach', 'min', 'penetration.treatment.layers'),
  insulation: number('the insulation minutes that these layers reach', 'min', 'penetration.treatment.layers'),
});

const ends = group('the duct ends', {
  system: text('the system of the duct ends'),
  distance: number('the distance between the duct ends', 'mm'),
});

const leak = group('where two walls do not meet', {
  width: number('how far the two walls are apart', 'mm'),
  other: text('the wall that the barrier does not meet'),
});

const minutesOf = (of: string, from: string) => ({
  integrity: number(`the integrity minutes ${of}`, 'min', from),
  insulation: number(`the insulation minutes ${of}`, 'min', from),
});

const run = group('the part of a duct run between fire dampers', {
  id: text('the id of the run'),
  name: text('the system and the id of the run'),
  system: text('the system of the run'),
  service: text('what the system is for', SERVICES),
  undampered: number('how many rated barriers it passes without a fire damper'),
  dampered: number('how many fire dampers end it'),
  mustResist: yesNo('whether the run must hold back fire by itself', 'brief.system'),
  resists: text('where the run must hold back fire by itself', ['always', 'whereUndampered'], 'brief.system'),
  dampers: text('whether the run may have dampers', ['allowed', 'never'], 'brief.system'),
  served: number('how many compartments the run opens into', undefined, 'run.serves'),
  serves: text('which compartments the run opens into'),
  looseEnds: number('how many ends outside of what it serves have nothing modelled at them'),
  required: group('what is asked of the run', minutesOf('asked of the run', 'barrier.rating'), 'barrier.rating'),
  declared: group(
    'what the protection of the run is declared for',
    minutesOf('that the protection of the run is declared for', 'run.protection.rating'),
    'run.protection.rating',
  ),
  length: number('the length of what must hold back fire and is not known to be bare', 'mm'),
});

const lapse = group('where the protection of the run lapses', {
  kind: text('in which way the protection lapses', ['none', 'bare', 'untold', 'inLine']),
  length: number('the length over which the protection lapses', 'mm'),
  elements: number('how many pieces of ductwork it is'),
  what: text('which pieces of ductwork it is'),
  where: text('the compartments that it lies in'),
  servedKnown: yesNo('whether it is known which compartment the run serves'),
  ratingKnown: yesNo('whether the rating is known of the barriers between it and what the run serves'),
  damperKnown: yesNo('whether it is known what the dampers are for between it and what the run serves'),
  shaftKnown: yesNo('whether it is known how the shaft round it is rated'),
});

const door = group('the door or window', {
  name: text('the name of the door or window'),
  rated: yesNo('whether the door or window is fire-rated', 'door.rating'),
  rating: group('the fire rating of the door or window', {
    state: text("how the door's fire rating is stated", RATING_STATES),
    text: text("the text of the door's fire rating"),
    ...criteria("the door's fire rating"),
  }),
});

const compartment = group('the compartment', {
  name: text('the name of the compartment'),
  calledShaft: yesNo('whether its names say that the compartment is a shaft'),
  enclosed: yesNo(
    'whether all walls, doors, floors and ceilings of the compartment hold back fire',
    'compartment.enclosure',
  ),
  gaps: text('what is open or not rated', undefined, 'compartment.enclosure'),
  unknowns: text('what is not known of its enclosure', undefined, 'compartment.enclosure'),
});

const model = group('the models taken together', {
  ductwork: number('how many pieces of ductwork were found'),
  barriers: number('how many barriers were found'),
  rated: number('how many barriers state a fire rating'),
  penetrations: number('how many penetrations were found'),
  facingEnds: number('how many pairs of facing duct ends were found'),
  overlap: yesNo('whether all files lie in one place'),
  apart: number('how far apart the files lie', 'mm'),
  strayFile: text('the file that lies apart'),
  nearestFile: text('the file nearest to the one that lies apart'),
  strayFiles: number('how many files lie apart'),
  offset: group('the offset between the two files', {
    x: number('the offset along x between the two files', 'mm'),
    y: number('the offset along y between the two files', 'mm'),
    z: number('the offset along z between the two files', 'mm'),
  }),
  protected: number('how many penetrations of rated barriers are protected'),
  withoutSystem: number('how many of them have no tested system chosen'),
  withoutFixing: number('how many of them have no fixing chosen'),
  dampered: number('how many penetrations of rated barriers have a damper alone'),
  dampersWithoutProof: number('how many of them have no tested damper chosen'),
});

const code = group('the code that holds', {
  waiting: number('how many places wait for the code that holds'),
  jurisdictionGiven: yesNo('whether the brief names the jurisdiction'),
  known: text('which codes the rule documents have checks of'),
});

export const FACTS = {
  barrier,
  penetration,
  duct,
  gap,
  neighbour,
  ends,
  leak,
  run,
  lapse,
  door,
  compartment,
  brief,
  system,
  model,
  code,
};
export type Variable = keyof typeof FACTS;

/** The facts about each kind of subject. */
export const VARIABLES: { readonly [E in Each]: readonly Variable[] } = {
  barrier: ['barrier', 'model'],
  penetration: ['barrier', 'penetration', 'duct', 'brief', 'system', 'model'],
  gap: ['barrier', 'penetration', 'duct', 'gap', 'brief', 'system', 'model'],
  neighbour: ['barrier', 'penetration', 'duct', 'neighbour', 'brief', 'system', 'model'],
  facingEnds: ['barrier', 'ends', 'model'],
  leak: ['barrier', 'leak', 'model'],
  run: ['run', 'model'],
  lapse: ['run', 'lapse', 'model'],
  door: ['barrier', 'door', 'model'],
  compartment: ['compartment', 'model'],
  model: ['model', 'code'],
};

export const isGroup = (entry: Fact | FactGroup): entry is FactGroup => 'fields' in entry;

/** The entry a dotted path names, whatever the subject. */
export function factAt(path: string): Fact | FactGroup | undefined {
  let entry: Fact | FactGroup = { says: 'everything', fields: FACTS };
  for (const name of path.split('.')) {
    const next: Fact | FactGroup | undefined =
      isGroup(entry) && Object.hasOwn(entry.fields, name) ? entry.fields[name] : undefined;
    if (!next) return undefined;
    entry = next;
  }
  return entry;
}

/** All paths that lead to a single fact for this kind of subject. */
export function factPaths(each: Each): string[] {
  const below = (path: string, entry: Fact | FactGroup): string[] =>
    isGroup(entry) ? Object.entries(entry.fields).flatMap(([name, inner]) => below(`${path}.${name}`, inner)) : [path];
  return VARIABLES[each].flatMap((variable) => below(variable, FACTS[variable]));
}

/** What is reported as missing when the fact at `path` is not there. */
export function missingName(path: string): string {
  return factAt(path)?.from ?? path;
}
