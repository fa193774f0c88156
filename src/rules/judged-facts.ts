/** The facts that hang on choices: what the brief asks, what was tested, what the strategy makes of runs, the models together. */
import { CONSTRUCTIONS, SERVICES, SPAN_KINDS } from '../model.js';
import { RODS } from '../supports/rods.js';
import { group, number, STATUSES, text, yesNo } from './fact-kinds.js';

export const brief = group('what the project brief chooses', {
  listsSystems: yesNo('whether the project brief lists systems'),
  headMovementGiven: yesNo('whether the brief says how far the structure above moves'),
  headMovement: number('the movement of the structure above that walls must bear', 'mm'),
  handsGiven: yesNo('whether the brief says how much room hands need'),
  openEntry: text('what must be known to tell which entry of the brief holds'),
  resists: text('where the duct must resist fire', ['always', 'whereUndampered'], 'brief.system'),
  fire: text('from which side the duct must resist fire', ['inside', 'outside', 'insideAndOutside']),
  dampers: text("whether the duct's system may have dampers", ['allowed', 'never'], 'brief.system'),
});

export const system = group('the tested system, or tested damper, chosen for the penetration', {
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
  roomStated: yesNo('whether the evidence says what room the damper needs', 'brief.testedDamper'),
  roomBeside: number('the room that the damper needs beside its casing', 'mm', 'penetration.damper.size'),
  roomBefore: number('how far before the barrier the damper needs room', 'mm', 'penetration.damper.size'),
  fireSidesAllowed: yesNo('whether the damper was tested from both sides of the barrier', 'penetration.fireSide'),
  layerThickness: number('how thick one layer of the protection is', 'mm'),
  thickness: number('how thick all layers of the protection are', 'mm', 'penetration.treatment.layers'),
  threeSidedGapAtMost: number('the greatest tested gap between the duct and what it lies against on three sides', 'mm'),
  // Only of what stands beside a duct, and of access panels.
  threeSidedFits: yesNo('whether the three-sided detail was tested so', 'barrier.construction'),
  panelAllowed: yesNo('whether this access panel is part of the tested duct', 'evidence.accessPanels'),
  facesNeeded: number('on how many faces of the barrier it is built', undefined, 'system.detail'),
  reachNeeded: yesNo('whether people must get at the faces that it is built on', 'system.detail'),
  testedFromOneFace: yesNo('whether it was tested in this barrier as built from one face', 'system.detail'),
  localBuildUp: number('how far the local build-up reaches from the barrier', 'mm', 'system.detail'),
  buildUpThickness: number('how thick all layers are with the local build-up', 'mm', 'system.detail'),
  collarWidth: number('how wide its angles and board collars are', 'mm', 'system.detail'),
  collarDepth: number('how thick its angles and board collars are', 'mm', 'system.detail'),
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
  supportSpacingAtMost: number('the greatest tested distance between supports', 'mm'),
  firstSupportAtMost: number('the greatest tested distance from a barrier to the first support', 'mm'),
  firstSupportStated: yesNo('whether the tested system says how far the first support may be from a barrier'),
  rodLengthStated: yesNo('whether the tested system says how long rods may be'),
  rodStressStated: yesNo('whether the tested system says how far rods may be stressed'),
  rodStressAtMost: number('the tested stress in rods for so long a fire, N/mm²'),
  rodLengthAtMost: number('the greatest tested length of rods', 'mm'),
  rodAllowed: yesNo('whether such rods were tested', 'support.rod'),
  bearerAllowed: yesNo('whether such bearers were tested', 'support.bearer'),
  rodsStated: yesNo('whether the tested system says which rods were tested'),
  bearersStated: yesNo('whether the tested system says which bearers were tested'),
  bearerStressStated: yesNo('whether the tested system says how far bearers may be stressed'),
  bearerStressAtMost: number('the tested bending stress in bearers for so long a fire, N/mm²'),
  risersStated: yesNo('whether the tested system says how upright ducts are held'),
  riserSupportAtMost: number('the greatest tested distance between supports of an upright duct', 'mm'),
  integrity: number('the integrity minutes that these layers reach', 'min', 'penetration.treatment.layers'),
  insulation: number('the insulation minutes that these layers reach', 'min', 'penetration.treatment.layers'),
});

const minutesOf = (of: string, from: string) => ({
  integrity: number(`the integrity minutes ${of}`, 'min', from),
  insulation: number(`the insulation minutes ${of}`, 'min', from),
});

export const run = group('the part of a duct run between fire dampers', {
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

export const support = group('the support of the duct', {
  id: text('the GlobalId of the support'),
  name: text('the name of the support'),
  duct: text('the name of the duct that the support carries'),
  minutes: number('how long the support must hold in a fire', 'min', 'barrier.rating'),
  hanging: yesNo('whether the duct hangs on the support', 'duct.shape'),
  loadKnowable: yesNo('whether all supports of the duct are modelled', 'run.supports'),
  rod: text('the rods of the support', RODS),
  rods: number('how many rods the support has', undefined, 'support.rod'),
  rodStress: number('the stress in the rods of the support, N/mm²', undefined, 'support.load'),
  rodStressPublished: number('the stress that standards allow rods for so long a fire, N/mm²'),
  rodLoad: number('the load on one rod, N', undefined, 'support.load'),
  rodDrawn: yesNo('whether the rods of the support are drawn'),
  rodLength: number('the length of the rods', 'mm'),
  bearer: text('the bearer of the support'),
  bearerStress: number('the bending stress in the bearer, N/mm²', undefined, 'support.load'),
  carried: number('how much of the duct the support carries', 'mm'),
  massPerMetre: number('the mass of one metre of the duct with all that is on it, kg', undefined, 'support.load'),
  spacingByStress: number(
    'the distance between supports at which the rods are stressed as far as is allowed',
    'mm',
    'support.load',
  ),
  hangsFrom: text('what the support hangs from'),
  hangsFromKind: text(
    'what kind of element the support hangs from',
    ['wall', 'floor', 'roof', 'beam', 'member', 'ceiling'],
    'support.hangsFrom',
  ),
  hangsFromConstruction: text(
    'the construction of what the support hangs from',
    CONSTRUCTIONS.filter((construction) => construction !== 'unknown'),
    'support.hangsFrom',
  ),
  hangsFromMinutes: number('how long what the support hangs from holds in a fire', 'min', 'support.hangsFrom'),
  hangsFromHolds: yesNo('whether what the support hangs from holds in a fire', 'support.hangsFrom'),
});

export const span = group('the length of duct without a support', {
  kind: text('where the length without a support lies', SPAN_KINDS),
  duct: text('the name of the duct there'),
  barrier: text('the barrier that it begins at'),
  length: number('the length without a support', 'mm'),
  found: yesNo('whether there is a support at all'),
  smallerSide: number('the smaller side of the duct', 'mm', 'duct.shape'),
});

export const lapse = group('where the protection of the run lapses', {
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

export const access = group('what the project itself asks of access openings', {
  spacingAsked: yesNo('whether the project asks how far apart openings may be', 'duct.system'),
  bendAsked: yesNo('whether the project asks how far from bends openings may be', 'duct.system'),
  spacing: number('the distance between openings that the project asks for', 'mm', 'brief.access'),
  fromBend: number('the distance of openings from bends that the project asks for', 'mm', 'brief.access'),
  source: text('where the project asks for that', undefined, 'brief.access'),
});

export const model = group('the models taken together', {
  panelsWaiting: number('how many places wait for whether all access panels are modelled'),
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
  facesToBuildAt: number('at how many faces of rated barriers protection is built'),
  facesUntold: number('of how many of them it is not known whether people get there'),
  dampered: number('how many penetrations of rated barriers have a damper alone'),
  dampersWithoutProof: number('how many of them have no tested damper chosen'),
});

export const supports = group('the supports of the models', {
  runs: number('how many parts of runs must hold back fire by themselves and are protected'),
  unknownRuns: number('of how many of them it is not known where all supports are'),
});

export const code = group('the code that holds', {
  waiting: number('how many places wait for the code that holds'),
  jurisdictionGiven: yesNo('whether the brief names the jurisdiction'),
  known: text('which codes the rule documents have checks of'),
});
