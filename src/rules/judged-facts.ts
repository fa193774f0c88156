/** The facts that hang on choices: what the brief asks, what was tested, what the strategy makes of runs, the models together. */
import { SERVICES } from '../model.js';
import { group, number, STATUSES, text, yesNo } from './fact-kinds.js';

export const brief = group('what the project brief chooses', {
  listsSystems: yesNo('whether the project brief lists systems'),
  headMovementGiven: yesNo('whether the brief says how far the structure above moves'),
  headMovement: number('the movement of the structure above that walls must bear', 'mm'),
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
  fireSidesAllowed: yesNo('whether the damper was tested from both sides of the barrier', 'penetration.fireSide'),
  layerThickness: number('how thick one layer of the protection is', 'mm'),
  thickness: number('how thick all layers of the protection are', 'mm', 'penetration.treatment.layers'),
  panelAllowed: yesNo('whether this access panel is part of the tested duct', 'evidence.accessPanels'),
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
  dampered: number('how many penetrations of rated barriers have a damper alone'),
  dampersWithoutProof: number('how many of them have no tested damper chosen'),
});

export const code = group('the code that holds', {
  waiting: number('how many places wait for the code that holds'),
  jurisdictionGiven: yesNo('whether the brief names the jurisdiction'),
  known: text('which codes the rule documents have checks of'),
});
