/** The facts of what was found: barriers, penetrations, ducts, gaps, doors, compartments. */
import { AIR_ELEMENT_KINDS, CONSTRUCTIONS, JOINT_EVIDENCE, LEAF_PROBLEMS, SERVICES } from '../model.js';
import { criteria, group, number, RATING_STATES, text, texts, yesNo } from './fact-kinds.js';

export const barrier = group('the barrier', {
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

export const penetration = group('the penetration', {
  id: text('the id of the penetration'),
  tag: text('the tag of the penetration'),
  crossing: text('how the duct crosses the barrier', ['through', 'endsInside', 'partial']),
  jointDistance: number('how far the nearest joint of the duct is from the barrier', 'mm'),
  jointFrom: text('what shows the joint', JOINT_EVIDENCE, 'penetration.jointDistance'),
  bothFacesReached: yesNo('whether both faces of the barrier can be reached', 'brief.room'),
  narrowestGap: number('the narrowest gap round the duct', 'mm'),
  widestGap: number('the widest gap round the duct', 'mm'),
  edgeDistance: number('how far the opening is from the next edge or opening of the barrier', 'mm'),
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

export const duct = group('the duct', {
  globalId: text('the GlobalId of the duct'),
  name: text('the name of the duct'),
  element: text('the kind of duct element', AIR_ELEMENT_KINDS),
  shape: text('the shape of the duct', ['rectangular', 'circular', 'oval']),
  width: number('the width of the duct', 'mm'),
  height: number('the height of the duct', 'mm'),
  diameter: number('the diameter of the duct', 'mm'),
  sectionFrom: text('where the section of the duct comes from', ['profile', 'mesh', 'property']),
  sectionResidual: number('how far the measured section is off its shape', 'mm'),
  measuredTo: number('how exactly the section of the duct is measured', 'mm', 'duct.shape'),
  sectionProblem: text('why the section of the duct is not known', ['noShape', 'notClosed', 'noAxis']),
  wall: group('the wall of the duct', {
    outline: text('what the outline of the duct is the outside of', ['sheet', 'insulation']),
    sheet: number("the thickness of the duct's sheet", 'mm'),
    insulation: number("the thickness of the duct's insulation", 'mm'),
    lining: number("the thickness of the duct's lining", 'mm'),
  }),
  aspectRatio: number('the ratio of the longer to the shorter side of the duct', undefined, 'duct.shape'),
  underside: number('how wide the horizontal underside of the duct is', 'mm', 'duct.shape'),
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

export const gap = group('the gap', {
  side: text('the side of the gap', ['top', 'bottom', 'left', 'right']),
  which: text('which gap of all round it is', ['narrowest', 'widest']),
  place: text('the side of the gap, or which it is', ['top', 'bottom', 'left', 'right', 'narrowest', 'widest']),
  value: number('the gap', 'mm'),
  measuredTo: number('how exactly the gap is measured', 'mm', 'duct.shape'),
  facesService: yesNo('whether the side faces another service instead of the edge of the opening'),
});

export const face = group('a face of the barrier', {
  name: text('which face it is'),
  needed: yesNo('whether something is to be built at the face', 'system.detail'),
  joint: number('how far before the face the duct is joined next', 'mm'),
  jointFrom: text('what shows the joint', JOINT_EVIDENCE, 'face.joint'),
  jointTo: text('what the duct is joined with there', undefined, 'face.joint'),
  collarRoom: number('how wide a collar round the duct may be', 'mm', 'face.obstacles'),
  collarRoomBy: text('what stands in the way of the collar', undefined, 'face.obstacles'),
  buildUpRoom: number('how thick the local build-up may be', 'mm', 'face.obstacles'),
  buildUpRoomBy: text('what stands in the way of the local build-up', undefined, 'face.obstacles'),
  obstructed: yesNo('whether something stands in line with the duct within 1 m of the face', 'face.obstacles'),
  freeDepth: number('the free depth straight before the face', 'mm', 'face.obstacles'),
  damperRoom: number('how much is free beside the damper', 'mm', 'face.obstacles'),
  damperRoomBy: text('what stands in the way of the damper', undefined, 'face.obstacles'),
  freeDepthBy: text('what stands before the face', undefined, 'face.obstacles'),
  entered: yesNo('whether the brief says that people enter the shaft that the face lies in', 'brief.room'),
  room: text('the room before the face'),
  roomWidth: number('the narrowest breadth of the room before the face', 'mm'),
  reached: yesNo('whether people get at the face', 'brief.room'),
  because: text('why nobody gets at the face', undefined, 'brief.room'),
});

export const neighbour = group('the neighbouring penetration', {
  id: text('the id of the neighbouring penetration'),
  tag: text('the tag of the neighbouring penetration'),
  name: text('the name of the neighbouring duct'),
  distance: number('the distance between the two ducts', 'mm'),
  measuredTo: number('how exactly the distance between the two ducts is measured', 'mm', 'duct.shape'),
  sameOpening: yesNo('whether both ducts pass the same opening'),
});

export const ends = group('the duct ends', {
  system: text('the system of the duct ends'),
  distance: number('the distance between the duct ends', 'mm'),
});

export const leak = group('where two walls do not meet', {
  width: number('how far the two walls are apart', 'mm'),
  other: text('the wall that the barrier does not meet'),
});

export const door = group('the door or window', {
  name: text('the name of the door or window'),
  rated: yesNo('whether the door or window is fire-rated', 'door.rating'),
  rating: group('the fire rating of the door or window', {
    state: text("how the door's fire rating is stated", RATING_STATES),
    text: text("the text of the door's fire rating"),
    ...criteria("the door's fire rating"),
  }),
});

export const accessGap = group('the way from one opening of a run to the next', {
  from: text('the opening that the way begins at'),
  to: text('the opening that the way ends at'),
  length: number('the way along the ducts between openings', 'mm', 'brief.accessPanels'),
  level: number('the longest level stretch of ducts between openings', 'mm', 'brief.accessPanels'),
});

export const bend = group('the change of direction', {
  name: text('the name of the bend'),
  angle: number('by how much the duct turns', 'deg'),
  toAccess: number('the way from the bend to the nearest opening', 'mm', 'brief.accessPanels'),
  nearest: text('the nearest opening', undefined, 'brief.accessPanels'),
});

export const accessPanel = group('the access panel', {
  name: text('the name of the access panel'),
  side: text('the side of the duct that the panel lies on', ['top', 'bottom', 'left', 'right']),
  isLevel: yesNo('whether the duct that the panel lies on is level', 'accessPanel.side'),
  flat: yesNo('whether the duct has flat sides where the panel lies', 'duct.shape'),
  width: number('the width of the panel along the duct', 'mm'),
  height: number('the height of the panel across the duct', 'mm'),
  least: number('the lesser side of the panel', 'mm', 'accessPanel.width'),
  toEdge: number('the distance of the panel from the edge of the duct', 'mm'),
  atBarrier: yesNo('whether the duct passes a barrier near the panel'),
  toBarrier: number('the distance of the panel from the face of the barrier', 'mm'),
});

export const compartment = group('the compartment', {
  name: text('the name of the compartment'),
  calledShaft: yesNo('whether its names say that the compartment is a shaft'),
  enclosed: yesNo(
    'whether all walls, doors, floors and ceilings of the compartment hold back fire',
    'compartment.enclosure',
  ),
  gaps: text('what is open or not rated', undefined, 'compartment.enclosure'),
  unknowns: text('what is not known of its enclosure', undefined, 'compartment.enclosure'),
});

export const room = group('the room beside the duct', {
  side: text('the side of the duct', ['top', 'bottom', 'left', 'right']),
  distance: number('the distance from the duct to what stands beside it', 'mm'),
  obstacle: text('what stands beside the duct'),
  where: text('where it stands'),
  over: text('over which length it stands there'),
  move: text('which way the duct may give room'),
  wrapped: yesNo('whether the duct is known to be protected'),
  protectionKnown: yesNo('whether it is known if the duct is protected', 'penetration.treatment'),
  sheetKnown: yesNo('whether the distance is measured from the sheet of the duct', 'duct.wall.outline'),
  working: number('the room that hands need beside the protection', 'mm'),
  workingFrom: text('where the working room is from', ['brief', 'commonPractice']),
  flange: number('how far flanges are known to stand out', 'mm'),
  otherProtection: number('how thick the protection of the other duct is', 'mm', 'room.otherProtection'),
  threeSided: yesNo('whether a three-sided detail of the tested system is asked for here'),
  threeSidedMiss: text('what the three-sided detail was not tested for'),
  burns: yesNo('whether what stands there is known to burn'),
  untold: number('of how many elements near the run it is not known whether they burn'),
});
