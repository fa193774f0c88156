/**
 * Every tolerance of the program: one named constant for each purpose, with the reason for its size.
 * Lengths in mm, angles in degrees.
 */

/** Largest distance between a true arc and the chords it is drawn with: far below the 0.1 mm that is reported. */
export const ARC_SAGITTA = 0.01;

/** The same for what is drawn as a mesh (bends, tapers, bent tubes): finer would cost seconds and show nothing. */
export const SWEPT_SAGITTA = 0.1;

/** Chords of a whole circle at most: within ARC_SAGITTA up to a radius of 136 m, within 0.1 mm up to 1.3 km. */
export const MOST_CHORDS = 8192;

/** Vertices closer than this are one vertex: tessellated files repeat them with rounding noise of about 0.001. */
export const WELD = 0.001;

/** Overlaps thinner than this are contact, no crossing: authoring programs place touching elements within about that. */
export const CONTACT = 1;

/** How far inside a face a cutting plane is laid to stand for the face itself: the cut is then well defined. */
export const FACE_INSET = 0.01;

/** Duct ends nearer than this, with sections that overlap, belong to one duct: flanges and gaskets are seldom drawn. */
export const JOINT = 10;

/** A port this near to a face of an element lies on it. */
export const PORT_ON_FACE = 5;

/** Faces whose normals differ by less are parallel: models are drawn square, with rounding noise. */
export const PARALLEL = 0.5;

/** Facets that turn by less from one to the next were drawn for a round face; a room of 36 corners is none. */
export const FACET_TURN = 10;

/** Corners of the facets of a round face lie this near to the circle: meshes keep about seven digits of their size. */
export const ROUND_RESIDUAL = 0.2;

/** A duct within this of running along a barrier does not pass it by its faces. */
export const GRAZING = 5;

/**
 * A duct along a barrier, its centre line beyond one face, takes the barrier in where its side reaches through this share
 * of the thickness: what is left is no more than a board. Less is a chase in the face. Common practice, no source.
 */
export const TAKEN_IN = 0.9;

/** A duct comes out at a face where this share of its section does: the rest is rounding of where its end was drawn. */
export const WHOLE_SECTION = 0.98;

/** Leaves whose faces are nearer than this are one barrier: linings, laminates and the cavity of a cavity wall. */
export const LEAF_DISTANCE = 60;

/** Parts of one wall with a cavity up to this between them are passed as one; studs and ties need no more. */
export const CAVITY = 300;

/** Layers add up to what is drawn, and begin at its face, within this: what meshes are measured to. */
export const LAYERS_FIT = 2;

/** Duct ends up to this far from a face can be meant to meet through the barrier. */
export const FACING_REACH = 500;

/** Facing duct ends may be this far out of line, or out of parallel (degrees), and still be meant to meet. */
export const FACING_OFFSET = 50;
export const FACING_ANGLE = 5;

/** Other penetrations of a barrier up to this distance are listed as neighbours (the contract's least). */
export const NEIGHBOUR_REACH = 500;

/** A measured section may miss the fitted shape by this much, or by this share of its size, before it is unknown. */
export const FIT_RESIDUAL = 2;
export const FIT_RESIDUAL_SHARE = 0.01;

/** Elements with one GlobalId whose boxes agree within this are one: files round, and draw round things by chords. */
export const SAME_PLACE = 10;

/** Two files whose elements are further apart than this can't belong to one building site. */
export const FEDERATION_REACH = 1000;

/** A cut may have so much of its outline bridged, as a share, before it says nothing: one side of a square is a quarter. */
export const MOST_BRIDGED = 1 / 3;

/** Duct sheet is no thicker (ducts are of 0.5 to 3 mm, welded ones to 6), insulation no thinner: common practice, no source. */
export const MOST_SHEET = 6;

/** Bodies whose middles are nearer than this go round one duct. */
export const SAME_CENTRE = 5;

/** What goes round a duct for less than this along it is a flange or a stiffener, no insulation. */
export const LEAST_SHELL_LENGTH = 150;

/** A stated size is the drawn one when it is within this, and within a sheet on either side: sizes are rounded. */
export const NOMINAL = 2;

/** What stands further from an opening does not bear on how it is sealed. */
export const AROUND_REACH = 2000;

/** So far before a face the walls are looked for that meet it: further than any skirting, nearer than any furniture. */
export const BESIDE_FACE = 20;

/** Steps at which the top of a wall is compared with the structure above it. */
export const HEAD_STEP = 200;

/** More steps than 1 km has are no building's: a file without its units has walls of hundreds of km, and steps grow with them. */
export const MOST_HEAD_STEPS = 5000;

/** Positions nearer than this are one place in two revisions: other units and origins round to about 0.1. */
export const UNMOVED = 1;

/** Sizes, gaps and offsets that differ by less are the same in two revisions, for the same reason. */
export const SAME_SIZE = 0.5;

/** A barrier may be moved this far along a duct that did not move, and still be known again under another GlobalId. */
export const BARRIER_MOVED = 1000;

/** A duct may be moved this far and still be known again under another GlobalId: further, it is another duct. */
export const DUCT_MOVED = 500;

/** A moved duct is known again only where no other of its kind is nearer than this: a row of like ducts may have shifted. */
export const STANDS_ALONE = 1500;

/** How far beyond a face a room is looked for: past linings that are drawn as walls of their own. */
export const ROOM_PROBE = 150;

/** Ceiling voids and raised floors belong to the room under or over them, up to this height. */
export const ROOM_HEIGHT = 1500;

/** Nearer than this to a grid line nobody names an offset, which is told to 0.1 m. */
export const ON_AXIS = 50;

/** Rated walls on plan that come this near to each other meet: joints are drawn that wide. Common practice, no source. */
export const LOOP_JOINT = 20;

/** A wider gap between the ends of rated walls is a leak up to this; beyond it the walls are not meant to meet. */
export const LOOP_LEAK = 1000;

/** Storeys are cut this far over the feet of their walls: over sills and plinths, through doors and under windows' heads. */
export const PLAN_CUT = 1200;

/** Floors whose tops round to the same step of height carry the same walls: screeds and falls make no storey. */
export const FLOOR_STEP = 100;

/** Walls whose feet are nearer than this in height stand on one storey: steps and ramps are less, storeys more. */
export const LEVEL_STEP = 1500;

/** Storeys of one name that models put nearer together than this are one: screeds are less, storeys more. */
export const SAME_STOREY = 500;

/** Floors end this near to walls: edge strips and linings are often not drawn. Common practice, no source. */
export const FLOOR_JOINT = 100;

/** Walls may stop so far under the structure for its movement, as the check on their heads has it. Common practice, no source. */
export const HEAD_JOINT = 25;

/** Through an opening in a floor that is nowhere narrower than this a person passes, so it joins what is over and under it. */
export const OPEN_VOID = 600;

/** What rated walls enclose more narrowly than this is a cavity, no compartment. */
export const LEAST_COMPARTMENT = 200;

/** A fire damper that stands further from a barrier than this was not meant for it. Common practice, no source. */
export const DAMPER_REACH = 1000;

/** What is behind an access panel is reached from it by an arm, no further. Common practice, no source. */
export const ACCESS_REACH = 600;

/** The nearest access panel is named up to this distance, so that a finding can say how far off it is. */
export const ACCESS_LOOK = 5000;

/**
 * What stands further than this from a duct bears on nothing round it: kitchen exhaust keeps 457 mm from what burns (NFPA
 * 96), and protection of two neighbours with flanges and room for hands takes less.
 */
export const ROOM_REACH = 500;

/** What is joined to a duct by no more joints than this lies beside it at bends and branches, and is in nobody's way. */
export const JOINED_STEPS = 3;
/** Rings and room for hands before a face are looked for so far out from the duct: wider than any board or angle. */
export const FACE_RING = 500;

/** So far before a face: further than any local build-up, and than an arm reaches. */
export const FACE_DEPTH = 1000;

/**
 * So far along a run from where it changes, mm: twice what may lie between access openings in any standard that we know of.
 * Common practice, no source.
 */
export const RUN_REACH = 20_000;

/** A support lies round a duct or under it within this: blankets that are not drawn, and packing. Common practice, no source. */
export const SUPPORT_REACH = 200;

/** Elements that hold a duct within this along it are one support: two rods and their bearer. */
export const SUPPORT_PARTS = 150;

/** A support hangs from what is this near over its top: anchors and plates are seldom drawn. */
export const HANG_REACH = 100;

/** A body so many times as high as it is wide is a rod. */
export const SLENDER = 8;

/** Ductwork that is steeper than this, degrees, stands on floors; what is flatter hangs. Common practice, no source. */
export const UPRIGHT = 60;
/** A panel that is proposed keeps so far clear of joints, edges and barriers, for its frame. Common practice, no source. */
export const PANEL_CLEARANCE = 50;

/** Degrees off upright up to which a duct goes up rather than along. */
export const STEEP = 45;

/** A piece of duct that a move makes shorter stays at least so long: less is no piece that is made. Common practice, no source. */
export const LEAST_PIECE = 100;

/** Cuts are planned in whole steps of this where sizes are no whole millimetres: what a review rounds lengths to. */
export const CUT_LENGTH_STEP = 0.1;

/**
 * A storey reaches so far beyond the walls that stand on it: walls and shafts from storeys below are among them or nearer
 * than this, the next building on a slope is seldom. Common practice, no source.
 */
export const STOREY_MARGIN = 5000;

/** A floor whose middle lies no further over the feet of the walls than this carries them: slabs, screeds, raised floors. */
export const FLOOR_BESIDE_FEET = 500;
