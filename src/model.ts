/**
 * The data that flows through Ratedrun, in one place: what `read` gives (Federation), what `find` gives
 * (Penetration), what `judge` gives (Finding). No algorithms here.
 *
 * Units everywhere: millimetres, degrees, minutes of fire resistance, unless the name says otherwise.
 * In a Federation an unknown value is left out (`undefined`); in what a report prints it is `null`.
 */

import type { Rod } from './supports/rods.js';

/** x, y, z in millimetres (a point) or without unit (a direction). */
export type Vec3 = readonly [number, number, number];
/** x, y in millimetres, in the plane of a profile, a cutting plane or a drawing. */
export type Vec2 = readonly [number, number];
/** A closed outline without its repeated last point; counter-clockwise where the source says nothing else. */
export type Polygon = readonly Vec2[];

/** Two files may hold the same GlobalId, so an element is named by both. */
export interface ElementRef {
  /** `m1`, `m2` …: see {@link ModelInfo.id}. */
  readonly model: string;
  readonly globalId: string;
}

// ---------------------------------------------------------------------------------------------- geometry of elements

/** Where local coordinates sit in the federation's inner frame. The axes are orthonormal; mirrored frames are legal. */
export interface Frame {
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

/** A profile swept along a straight line. Exact: no tessellation but for arcs, and those to 0.01 mm. */
export interface Prism {
  readonly kind: 'prism';
  /** Carries the outline's plane (x, y) into the inner frame. */
  readonly frame: Frame;
  readonly outline: Polygon;
  /** Inner outlines: the air space of a hollow profile, or holes in the profile of a wall or slab. */
  readonly voids: readonly Polygon[];
  /** From the base outline to the top outline, in the inner frame; not always along `frame.z`. */
  readonly sweep: Vec3;
}

/** Triangles in the inner frame. May be open or wound wrongly: models are. Every number is finite. */
export interface Mesh {
  readonly kind: 'mesh';
  /** Flat x, y, z, millimetres; length is 3 × vertex count. */
  readonly positions: Float64Array;
  /** Three vertex indices per triangle; length is 3 × triangle count. */
  readonly triangles: Uint32Array;
}

export type Body = Prism | Mesh;

// ------------------------------------------------------------------------------------------------------ fire ratings

/** Minutes; `none`: the text asks nothing of this criterion; `null`: not to be known from the text. */
export type Minutes = number | 'none' | null;

export type RatingState = 'stated' | 'durationOnly' | 'notRequired' | 'unstated' | 'unreadable';

/** A fire rating as read from free text. See `src/fire-rating/`. */
export interface Rating {
  readonly state: RatingState;
  /** As it stands in the model; null when nothing is stated. */
  readonly text: string | null;
  readonly loadbearing: Minutes;
  readonly integrity: Minutes;
  readonly insulation: Minutes;
  /** One number without criteria, e.g. "1 HR" gives 60. */
  readonly duration: number | null;
  readonly from: 'occurrence' | 'type' | 'material' | 'brief' | null;
}

// -------------------------------------------------------------------------------------------------------- federation

export interface Storey {
  readonly globalId: string;
  readonly name: string;
  /** Millimetres, as the storey's own Elevation says, else the height of its placement. */
  readonly elevation: number;
}

export interface Problem {
  /** Stable word for programs, e.g. `unreadable-geometry`. */
  readonly code: string;
  /** The element it is about; null when it is about the file. */
  readonly globalId: string | null;
  readonly message: string;
}

export interface ModelCounts {
  /** Duct segments, rigid and flexible. */
  readonly ducts: number;
  readonly fittings: number;
  readonly dampers: number;
  readonly silencers: number;
  readonly terminals: number;
  readonly barriers: number;
  /** Walls, floors and roofs without a body of their own: the barriers that they are made of are counted instead. */
  readonly barriersOfParts: number;
  readonly openings: number;
  /** Pipes, cable carriers and other services that may share an opening with a duct. */
  readonly otherServices: number;
  /** Air-path elements and barriers whose geometry could not be used; each has a problem. */
  readonly skipped: number;
  /** Flow segments, fittings and controllers that nothing in the file shows to be ductwork or something else. */
  readonly unclassified: number;
}

export interface ModelInfo {
  /** `m1`, `m2` …, by file name, then hash. */
  readonly id: string;
  readonly file: string;
  readonly schema: string;
  readonly sha256: string;
  readonly projectGlobalId: string | null;
  /** Name of the length unit as the file has it, e.g. `MILLIMETRE`, `FOOT`. */
  readonly lengthUnit: string;
  readonly application: string | null;
  /** ISO 8601, as the file's header has it, often without a zone. */
  readonly writtenAt: string | null;
  readonly counts: ModelCounts;
  readonly problems: readonly Problem[];
}

/** `leaf`: what holds the rating; `lining`: another material on or before it; `cavity`: air. */
export type LayerRole = 'leaf' | 'lining' | 'cavity';

export interface MaterialLayer {
  readonly material: string;
  readonly thickness: number | undefined;
  /** Of a barrier; left out where nothing tells. */
  readonly role?: LayerRole | undefined;
}

/** Where the layers of an element begin, and which way they follow each other. */
export interface LayerStart {
  /** On the outer face of the first layer. */
  readonly at: Vec3;
  readonly direction: Vec3;
}

interface Element extends ElementRef {
  readonly name: string;
  /** IFC entity name as written in the file, upper case. */
  readonly entity: string;
  readonly storey: Storey | undefined;
  readonly bodies: readonly Body[];
  /** As its common property set says, else as all its materials are; left out where nothing tells. */
  readonly combustible?: boolean | undefined;
}

export interface Port {
  readonly globalId: string;
  readonly at: Vec3;
  /** GlobalId of the port it is connected with. */
  readonly connectedTo: string | undefined;
  /** Which way air passes it, seen from its element; left out where the file does not say, or says both. */
  readonly flow?: 'in' | 'out' | undefined;
}

export const AIR_ELEMENT_KINDS = [
  'segment',
  'fitting',
  'damper',
  'silencer',
  'flexible',
  'fan',
  'terminal',
  'equipment',
] as const;
/** `equipment`: air handlers and the like, where duct runs end as they do at terminals. */
export type AirElementKind = (typeof AIR_ELEMENT_KINDS)[number];
export type DuctMaterial = 'steel' | 'stainless' | 'aluminium' | 'plastic' | 'unknown';
/** What a damper is for. `control` covers every type that does not hold back fire or smoke. */
export type DamperPurpose = 'fire' | 'fireSmoke' | 'smoke' | 'control' | 'unknown';

/** What kind of barrier a damper is made for. */
export type DamperOrientation = 'wall' | 'floor' | 'both';

/** What shuts a damper, in the words of the file; what it does not say is left out. */
export interface DamperActuation {
  readonly type?: string | undefined;
  readonly closure?: string | undefined;
  readonly control?: string | undefined;
  /** FusibleLinkTemperature in the file's own unit of temperature. */
  readonly fusibleLink?: number | undefined;
}

/** What a file says of a damper. */
export interface DamperStatements {
  readonly purpose: DamperPurpose;
  readonly rating: Rating;
  readonly typeName?: string | undefined;
  readonly orientation?: DamperOrientation | undefined;
  /** From which sides of it its class lets the fire come; `one`: from one, whichever it is. */
  readonly fireSides?: 'both' | 'one' | undefined;
  readonly actuation?: DamperActuation | undefined;
}

/** Where something about the wall of a duct is known from. */
export type WallOrigin = 'geometry' | 'layers' | 'covering' | 'property' | 'name' | 'size' | 'brief';

/** What the file says of one part of a duct's wall. */
export interface DuctLayer {
  readonly kind: 'sheet' | 'insulation';
  /** Of insulation: outside the sheet, inside it (a lining), or not said. */
  readonly place: 'outside' | 'inside' | 'unknown';
  /** Undefined: it is there, and nothing says how thick. */
  readonly thickness: number | undefined;
  /** `covering`: an element of its own, so the duct is drawn without it. */
  readonly from: WallOrigin;
}

/** What a system of ducts is for, where that bears on how it must resist fire. IFC has no words for any of these. */
export const SERVICES = [
  'kitchenExhaust',
  'smokeExhaust',
  'stairPressurisation',
  'carParkExhaust',
  'applianceVentilation',
] as const;
export type Service = (typeof SERVICES)[number];
/** Where a duct must bear fire: air space, surroundings, or either. */
export const FIRE_SIDES = ['inside', 'outside', 'both'] as const;
export type FireSide = (typeof FIRE_SIDES)[number];

/** A property of a duct or of its system, as the model has it. */
export interface DuctProperty {
  readonly set: string;
  readonly property: string;
  readonly value: string;
}

/** A piece of ductwork that air passes through. */
export interface AirElement extends Element {
  readonly kind: AirElementKind;
  /** Why it was taken for ductwork, e.g. `IfcDuctSegment`, `name "Abluftkanal"`. */
  readonly evidence: string;
  readonly ports: readonly Port[];
  readonly system: string | undefined;
  /** PredefinedType of the system, e.g. `EXHAUST`. */
  readonly systemType: string | undefined;
  /** What else names the system: its LongName, ObjectType and Description. */
  readonly systemNames?: readonly string[] | undefined;
  /** Those that the brief asks for, of the duct, its type or its system. */
  readonly properties?: readonly DuctProperty[] | undefined;
  /** What the properties that the brief names say that the duct must reach, and that it reaches. */
  readonly ratings?: DuctRatings | undefined;
  readonly material: DuctMaterial;
  /** Names of coverings on it and of their types: what protects it may be modelled so. */
  readonly coverings?: readonly string[] | undefined;
  /** Sheet, insulation and lining as the file or the brief tells of them; left out or empty where nothing does. */
  readonly wall?: readonly DuctLayer[] | undefined;
  /** Sizes that its property sets state, inside sizes by convention, for comparison with the geometry. */
  readonly stated: { readonly width?: number; readonly height?: number; readonly diameter?: number };
  readonly damper: DamperStatements | undefined;
  /** Named as a panel or door through which ductwork is reached from outside. */
  readonly isAccessPanel?: boolean;
  /** What shows that it is one. */
  readonly accessEvidence?: string | undefined;
}

/** Null: no property states one. */
export interface DuctRatings {
  readonly required: Rating | null;
  readonly reached: Rating | null;
}

/** Something else that may pass the same opening. */
export interface OtherService extends Element {
  readonly kind: 'pipe' | 'cable' | 'other';
}

export interface Opening extends Element {
  /** GlobalIds of the elements that fill it (IfcRelFillsElement). */
  readonly filledBy: readonly string[];
  /** Those of them that are doors or windows. */
  readonly doors: readonly Door[];
}

/** A door or a window that fills an opening. */
export interface Door {
  readonly globalId: string;
  readonly name: string;
  readonly rating: Rating;
}

export type BarrierKind = 'wall' | 'floor' | 'roof';
export const CONSTRUCTIONS = [
  'steelStud',
  'timberStud',
  'shaftWall',
  'masonry',
  'aeratedConcrete',
  'concrete',
  'hollowCore',
  'ribbedDeck',
  'massTimber',
  'sandwichPanel',
  'unknown',
] as const;
export type Construction = (typeof CONSTRUCTIONS)[number];

/** What a layer may be that is no construction. A board belongs to the leaf of a stud wall and lines everything else. */
export const LAYER_KINDS = ['air', 'insulation', 'board', 'furring', 'finish'] as const;
export type LayerKind = (typeof LAYER_KINDS)[number];

/** What words in names say about a construction, or about one layer of it: a row of a construction table. */
export interface ConstructionWords {
  /** Each row has this or `layer`. */
  readonly construction?: Construction | undefined;
  readonly layer?: LayerKind | undefined;
  /** Parts of names; case, accents and hyphens make no difference. */
  readonly words: readonly string[];
  /** Words that must stand alone. */
  readonly wholeWords?: readonly string[] | undefined;
  /** Classes of other layers that leave the barrier what it is, such as the concrete on a deck. */
  readonly beside?: readonly Construction[] | undefined;
}

/** A wall, floor or roof. `bodies` is the gross body: before openings are cut. */
export interface Barrier extends Element {
  readonly kind: BarrierKind;
  readonly openings: readonly Opening[];
  readonly rating: Rating;
  /** Pset_*Common.Compartmentation. */
  readonly compartmentation: boolean | undefined;
  readonly layers: readonly MaterialLayer[];
  /** Left out where the file does not say on which face the first layer lies. */
  readonly layersFrom?: LayerStart | undefined;
  /** Boards before and after the frame of a stud wall, in the order of its layers; left out where they don't tell. */
  readonly boards?: readonly [number, number] | undefined;
  readonly construction: Construction;
  /** Pset_WallCommon.ExtendToStructure. */
  readonly extendToStructure: boolean | undefined;
  /** What a drawing says of it, where the brief lists one. */
  readonly drawing: DrawingRating | undefined;
}

export interface DrawingRating {
  readonly rating: Rating;
  readonly drawing: string;
  readonly revision: string;
}

/** What bears on openings near it and is no barrier. */
export interface Column extends Element {
  readonly kind: 'column';
}

export const OBSTACLE_KINDS = [
  'beam',
  'member',
  'plate',
  'stair',
  'ramp',
  'railing',
  'footing',
  'ceiling',
  'covering',
  'equipment',
  'furniture',
  'other',
] as const;

/** What is neither ductwork nor a barrier, a column or a service in a run, and stands in the way of a blanket and of hands. */
export interface Obstacle extends Element {
  readonly kind: (typeof OBSTACLE_KINDS)[number];
  /** Of beams, members and ceilings, which ducts may hang from. */
  readonly carries?: { readonly construction: Construction; readonly rating: Rating } | undefined;
}

/** A part of what ducts hang from or stand on, or all of it in one element. IFC has no entity for it, so names tell. */
export interface Support extends Element {
  /** Sizes that its names or properties state. */
  readonly rod: Rod | undefined;
  /** Of a bearer, e.g. `L 40x40x4`. */
  readonly bearer: string | undefined;
  /** GlobalId of the assembly that it is a part of. */
  readonly assembly: string | undefined;
}

// -------------------------------------------------------------------------------------------------- facts of a project

/**
 * Where a project's own models keep their facts, and facts that no model states: from its brief. `read` and `find` go by
 * it. Words are matched without regard to case, as parts of names.
 */
export interface ProjectFacts {
  /** Further places where barriers state their ratings. */
  readonly ratingProperties: readonly { readonly set: string; readonly property: string }[];
  /** Ratings from drawings, for barriers (by name or GlobalId) whose model states none that can be read. */
  readonly ratings: readonly {
    readonly barrier: string;
    readonly rating: string;
    readonly drawing: string;
    readonly revision: string;
  }[];
  /** What is a barrier here beside walls, slabs and roofs: ceilings, bulkheads, proxies, by words in their names. */
  readonly barriers: readonly { readonly words: readonly string[]; readonly kind: BarrierKind }[];
  /** Asked before every table. */
  readonly constructions: readonly ConstructionWords[];
  /** By words in the damper's own name or its type's. */
  readonly damperPurposes: readonly { readonly words: readonly string[]; readonly purpose: DamperPurpose }[];
  readonly ductMaterials: readonly { readonly words: readonly string[]; readonly material: DuctMaterial }[];
  /** What access panels of ductwork are called here, and whether all of them are modelled. */
  readonly accessPanels?:
    | {
        readonly words?: readonly string[] | undefined;
        /** A property that only access panels have with this value. */
        readonly property?: DuctProperty | undefined;
        readonly modelled: boolean;
      }
    | undefined;
  /** What supports of ducts are called here, and whether all of them are modelled. */
  readonly supports?: DeclaredSupports | undefined;
  /** What words in the names of ducts, of their types or materials say of them. */
  readonly ducts?: readonly DeclaredDuct[] | undefined;
  /** Properties of ducts and of their systems that the brief's choices go by. */
  readonly ductProperties?: readonly { readonly set: string; readonly property: string }[] | undefined;
  /** Where ducts state the fire rating that they must reach, or that they reach. */
  readonly ductRatingProperties?:
    | readonly {
        readonly set: string;
        readonly property: string;
        readonly means: keyof DuctRatings;
        /** With `reached`: what makes them resist fire; by themselves when left out. */
        readonly kind?: DeclaredProtection['kind'] | undefined;
      }[]
    | undefined;
  /** Protection is modelled or declared here, so what is not seen is not there. */
  readonly protectionModelled: boolean;
  readonly protections: readonly DeclaredProtection[];
  /** Where spaces name the fire compartment that they belong to. */
  readonly compartmentProperty?: { readonly set: string; readonly property: string } | undefined;
  /** Words in the names of spaces and zones that are shafts, beside those that everybody uses. */
  readonly shafts?: readonly string[] | undefined;
}

export interface DeclaredDuct {
  readonly words: readonly string[];
  readonly flexible?: boolean | undefined;
  /** Thickness of the sheet. */
  readonly sheet?: number | undefined;
  /** Thickness of the insulation outside the sheet; 0: there is none. */
  readonly insulation?: number | undefined;
  /** Thickness of the insulation inside the sheet. */
  readonly lining?: number | undefined;
}

export interface DeclaredSupports {
  readonly words?: readonly string[] | undefined;
  /** Those that are not seen are not there. */
  readonly modelled: boolean;
  /** Names of the systems of which that is said; left out: of all. */
  readonly systems?: readonly string[] | undefined;
}

export interface DeclaredProtection {
  /** Name of the system that is protected over its whole run. */
  readonly system?: string | undefined;
  /** Name or GlobalId of one duct. */
  readonly duct?: string | undefined;
  /** Words in the names of the coverings that are modelled on ducts, or of their types. */
  readonly covering?: readonly string[] | undefined;
  /** `none`: this duct is left out of what its system has. */
  readonly kind: 'blanket' | 'board' | 'fireResistingDuct' | 'none';
  readonly layers?: number | undefined;
  /** Minutes. */
  readonly integrity?: number | undefined;
  readonly insulation?: number | undefined;
  /** Where that is said, e.g. a drawing and its revision. */
  readonly evidence: string;
}

/** Several files seen as one building, in one frame. */
export interface Federation {
  /** Inner coordinates + origin = world coordinates. Whole metres, so that inner numbers stay small and exact. */
  readonly origin: Vec3;
  readonly frame: 'engineering' | 'map';
  readonly models: readonly ModelInfo[];
  readonly airElements: readonly AirElement[];
  readonly otherServices: readonly OtherService[];
  readonly barriers: readonly Barrier[];
  readonly columns: readonly Column[];
  readonly obstacles?: readonly Obstacle[];
  readonly supports?: readonly Support[];
  readonly grids?: readonly Grid[];
  readonly spaces?: readonly Space[];
  readonly zones?: readonly Zone[];
  /** Named as panels of ductwork, of entities that are no ductwork: they count where they lie on a duct. */
  readonly accessCovers?: readonly AccessCover[];
}

export interface AccessCover extends Element {
  /** What shows that it is one, in words. */
  readonly accessEvidence: string;
}

/** Straight axes only. */
export interface Grid extends ElementRef {
  readonly name: string;
  /** Families of axes (U, V, W), each in the order of the file. */
  readonly families: readonly (readonly GridAxis[])[];
}

export interface GridAxis {
  readonly tag: string;
  readonly ends: readonly [Vec3, Vec3];
}

/** A room. */
export interface Space extends Element {
  /** What people call it, where it has a number as its name. */
  readonly longName: string | undefined;
  /** Its names say that it is a shaft, or that it is something else; undefined: they say nothing. */
  readonly shaft?: boolean | undefined;
}

/** A fire compartment as a model states it. */
export interface Zone extends ElementRef {
  readonly name: string;
  /** `zone`: an element or group of its own; `property`: its spaces name it. */
  readonly from: 'zone' | 'property';
  /** GlobalIds of its spaces, in the same file. */
  readonly spaces: readonly string[];
  /** Its own solid; mostly it has none, and its spaces show where it is. */
  readonly bodies: readonly Body[];
  /** Its own names say that it is a shaft; undefined: they do not. */
  readonly shaft?: true | undefined;
}

// ------------------------------------------------------------------------------------------------------ penetrations

export type Side = 'top' | 'bottom' | 'left' | 'right';
export type Crossing = 'through' | 'endsInside' | 'partial';
export type SectionShape = 'rectangular' | 'circular' | 'oval' | 'unknown';

/** A barrier as penetrations and the report show it. */
export interface BarrierFacts extends ElementRef {
  readonly name: string;
  readonly kind: BarrierKind;
  readonly storey: Storey | null;
  /** Between the outermost faces, all leaves included; null where the body could not be measured. */
  readonly thickness: number | null;
  /** Other elements that form one barrier with this one. */
  readonly leaves: readonly ElementRef[];
  /** Of the element that names the barrier, as it is drawn: other leaves not included. */
  readonly drawnThickness: number | null;
  /**
   * Of the rated leaf alone: what tests are compared with. Linings and cavities within the element are not included; of
   * two leaves with a cavity between, the thinner counts.
   */
  readonly leafThickness: number | null;
  /** What the leaf's thickness was taken from; null where it is not known. */
  readonly leafFrom: 'layers' | 'geometry' | null;
  /** Why the leaf could not be told from the rest of the element. */
  readonly leafProblem: LeafProblem | null;
  /** What the crossing passes, one after the other; empty where nothing was crossed or measured. */
  readonly buildUp: readonly BuildUpPart[];
  /** `file`: nothing tells on which face the layers of the element begin, so they stand in the order of the file. */
  readonly buildUpAlong: 'normal' | 'file' | null;
  /** Boards on both faces of the frame of a stud or shaft wall, in the order of `buildUp`; null where layers don't tell. */
  readonly boards: readonly [number, number] | null;
  readonly construction: Construction;
  readonly layers: readonly MaterialLayer[];
  /** Of all layers together; null where one does not state its own. */
  readonly layersThickness: number | null;
  readonly rating: Rating;
  /** The same from a drawing that the brief lists. */
  readonly drawing: DrawingRating | null;
  /** How a rated wall meets the structure above; null for what is no rated wall. */
  readonly head: HeadFacts | null;
  /** The GlobalId that earlier reports knew it by, where a re-export gave it another; keys go by it. null: its own. */
  readonly inferredFrom: string | null;
}

/** What an earlier report knew a penetration by, where GlobalIds changed and its place told which one it is. */
export interface InferredFrom {
  /** GlobalIds that the key was made of. */
  readonly duct: string;
  readonly barrier: string;
  /** What its present GlobalIds would give: by this key the next report knows it again. */
  readonly ownKey: string;
}

/**
 * `thicknessUnstated`: there are linings or cavities, and not every layer says how thick it is; `thicknessDiffers`: the
 * layers don't add up to what is drawn; `notTold`: words and categories don't say which layer is the leaf.
 */
export const LEAF_PROBLEMS = ['thicknessUnstated', 'thicknessDiffers', 'notTold'] as const;
export type LeafProblem = (typeof LEAF_PROBLEMS)[number];

export interface BuildUpPart {
  /** Another element than the one that names the barrier is a lining; a cavity is air or nothing. */
  readonly kind: LayerRole;
  /** null: between elements, or between parts of one. */
  readonly element: ElementRef | null;
  /** Of one layer; null where the element was not told into layers. */
  readonly material: string | null;
  readonly thickness: number;
}

export interface HeadFacts {
  /** The largest clear height between the top of the wall and the structure; null: no structure above in the models. */
  readonly gap: number | null;
  /** Of the wall, where there is a gap. */
  readonly length: number;
  /** Where the gap is largest, or half-way along the top, world coordinates; null: no structure above in the models. */
  readonly at: Vec3 | null;
  /** Services that pass over the wall there. */
  readonly passing: readonly ElementRef[];
  /** What the model states of it. */
  readonly extendToStructure: boolean | null;
}

/** Across a duct, as in {@link DuctFacts}. */
export interface DuctSize {
  readonly width: number | null;
  readonly height: number | null;
  readonly diameter: number | null;
}

export interface WallLayer {
  readonly thickness: number | null;
  readonly from: WallOrigin;
}

/** What a duct's wall is made of, as far as that is known. */
export interface DuctWall {
  /** What the modelled outline (`width`, `height`, `diameter`) is the outside of. */
  readonly outline: 'sheet' | 'insulation' | 'unknown';
  /** Why, in words. */
  readonly evidence: string;
  readonly sheet: WallLayer | null;
  /** Outside the sheet; null where nothing shows any. */
  readonly insulation: WallLayer | null;
  /** Inside the sheet. */
  readonly lining: WallLayer | null;
}

export interface DuctFacts extends ElementRef {
  readonly name: string;
  readonly element: AirElementKind;
  readonly shape: SectionShape;
  /** Across the duct, most nearly along `frame.right`; of the modelled outline. */
  readonly width: number | null;
  /** Across the duct, most nearly along `frame.up`. */
  readonly height: number | null;
  readonly diameter: number | null;
  readonly sectionFrom: 'profile' | 'mesh' | 'property' | null;
  /**
   * Largest distance between a measured mesh section, its chords included, and the shape fitted to it; null for profiles.
   */
  readonly sectionResidual: number | null;
  /**
   * Why the shape is unknown: `noShape`: it fits none; `notClosed`: the mesh has gaps where it is cut; `noAxis`: nothing
   * straight passes squarely here, so no cut is the section. Null where the shape is known.
   */
  readonly sectionProblem: 'noShape' | 'notClosed' | 'noAxis' | null;
  readonly wall: DuctWall;
  /** Sizes of the air space, of the outside of the sheet and of the insulation; null where not known. */
  readonly sizes: {
    readonly inside: DuctSize | null;
    readonly sheet: DuctSize | null;
    readonly insulation: DuctSize | null;
  };
  readonly material: DuctMaterial;
  /** Start and end of the duct's centre line, world coordinates; null where it has none. */
  readonly axis: readonly [Vec3, Vec3] | null;
  readonly run: string | null;
  readonly system: string | null;
  readonly systemType: string | null;
  readonly systemNames: readonly string[];
  readonly properties: readonly DuctProperty[];
  readonly ratings: DuctRatings;
  /** Sizes that the property sets state; null where they don't. */
  readonly stated: { readonly width: number | null; readonly height: number | null; readonly diameter: number | null };
}

export interface Gaps {
  readonly top: number | null;
  readonly bottom: number | null;
  readonly left: number | null;
  readonly right: number | null;
  /** Negative: the duct overlaps the barrier beside the opening. */
  readonly min: number | null;
  readonly max: number | null;
  /** Sides that face another service in the opening: its penetration's id, else its GlobalId. */
  readonly facing: { readonly [S in Side]?: string };
}

export interface OpeningFacts {
  readonly model: string;
  /** null when the opening is a hole in the barrier's own body. */
  readonly globalId: string | null;
  readonly shape: 'rectangular' | 'circular' | 'other';
  readonly width: number;
  readonly height: number;
  readonly from: 'element' | 'hole';
}

/** `end`: the barrier's own edge, its top too; `slab`: a floor or roof over or under a wall; `corner`: another wall. */
export type AroundKind = 'end' | 'slab' | 'corner' | 'column' | 'door' | 'opening';

/** Something near an opening, in the barrier's plane. */
export interface AroundOpening {
  readonly side: Side;
  readonly kind: AroundKind;
  /** From the edge of the opening; of the duct where there is none. */
  readonly distance: number;
  readonly element: ElementRef;
}

/** A damper at a barrier. Its blade is seldom drawn, so its place is that of its casing. */
export interface DamperFacts extends ElementRef {
  readonly name: string;
  readonly typeName: string | null;
  readonly purpose: DamperPurpose;
  readonly rating: Rating;
  /** What its properties and the class of its rating say it is made for; null: nothing, or they contradict each other. */
  readonly orientation: DamperOrientation | null;
  readonly fireSides: 'both' | 'one' | null;
  readonly actuation: {
    readonly type: string | null;
    readonly closure: string | null;
    readonly control: string | null;
    readonly fusibleLink: number | null;
  } | null;
  /** Of the air that it lets through, and what shows it; null: its section is not known. */
  readonly size: (DuctSize & { readonly from: 'geometry' | 'property' | 'duct' | 'casing' }) | null;
  /** From the middle of the rated leaf to the middle of the casing, along the barrier's normal; null: not measured. */
  readonly offset: number | null;
  /** How far the casing stands out of the face that the normal comes from, and of the one that it goes to; negative: within. */
  readonly standsOut: readonly [number, number] | null;
  /** Nearest wall, floor or column beside the casing, in the barrier's plane; null: none within reach. */
  readonly construction: AroundOpening | null;
  readonly access: DamperAccess;
}

export interface DamperAccess {
  /** The nearest access panel of the same run. */
  readonly panel: ElementRef | null;
  /** Clear distance between the casing and the panel. */
  readonly distance: number | null;
  /** null: none is within reach, and nothing says that all panels are modelled. */
  readonly withinReach: boolean | null;
}

export interface DamperOutside extends ElementRef {
  readonly name: string;
  readonly purpose: DamperPurpose;
  /** From the nearer face of the barrier to the casing, along the normal. */
  readonly distance: number;
}

export interface Penetration {
  readonly id: string;
  readonly key: string;
  readonly tag: string;
  /** null: the key is made of the GlobalIds below. */
  readonly inferredFrom: InferredFrom | null;
  readonly crossing: Crossing;
  readonly duct: DuctFacts;
  /** All duct elements of this crossing; `duct` is the one at the barrier's middle. */
  readonly elements: readonly ElementRef[];
  /** Dampers among the elements. */
  readonly dampers: readonly DamperFacts[];
  /** Where none of the dampers holds back fire: the nearest one in this ductwork that does, and stands clear of the barrier. */
  readonly damperOutside: DamperOutside | null;
  readonly barrier: BarrierFacts;
  readonly opening: OpeningFacts | null;
  readonly gaps: Gaps;
  readonly gapsTo: 'sheet' | 'insulation' | 'unknown';
  readonly neighbours: readonly { readonly penetration: string; readonly distance: number }[];
  readonly others: readonly (ElementRef & { readonly kind: 'pipe' | 'cable' | 'duct' | 'other' })[];
  /** The nearest of each kind on each side. */
  readonly around: readonly AroundOpening[];
  /** From the nearer face to the nearest joint or end of this ductwork; negative inside the barrier; null: not known. */
  readonly jointDistance: number | null;
  /** What shows that joint; null where none is known. */
  readonly jointFrom: JointEvidence | null;
  /** What lies before each face: that which `frame.normal` points away from, then the other; null: not measured. */
  readonly faces: readonly [FaceFacts | null, FaceFacts | null];
  /** Between the top of the rated wall and the structure, over this place; null: no rated wall, no structure above. */
  readonly headGap: number | null;
  readonly skew: number;
  readonly position: Vec3;
  readonly frame: { readonly normal: Vec3; readonly right: Vec3; readonly up: Vec3 };
  readonly outlines: { readonly duct: readonly Polygon[]; readonly opening: readonly Polygon[] };
  readonly storey: Storey | null;
  readonly place: Place;
  /** Ids of the compartments on both sides: the one that `frame.normal` points away from, then the one it points to. */
  readonly compartments: readonly [string | null, string | null];
  readonly treatment: {
    readonly kind: 'blanket' | 'board' | 'fireResistingDuct' | 'damper' | 'both' | 'none' | 'unknown';
    readonly evidence: string | null;
    /** Of the protection, as the brief declares it. */
    readonly layers: number | null;
    /** Minutes that the damper or the protection is rated for; 0 where its rating grants none; null: not known. */
    readonly integrity: number | null;
    readonly insulation: number | null;
  };
}

/** What is before one face of a barrier, as far as it bears on what is built there round the duct. */
export interface FaceFacts {
  /** The next joint, end or branch of the ductwork on this side; null: where its pieces end is not known. */
  readonly joint: FaceJoint | null;
  /** What stands within 500 mm of the duct and 1 m of the face, but for what another thing on its side is always before. */
  readonly obstacles: readonly FaceObstacle[];
  /** Compass word for a wall's face, `above` or `below` for a floor's. */
  readonly towards: string;
  /** The room or the compartment there; null: none is known. */
  readonly room: string | null;
  /** Whether names say that it is a shaft; false too in the open; null: nothing says. */
  readonly shaft: boolean | null;
  /** The narrowest breadth of its plan; null where it is not known. */
  readonly roomWidth: number | null;
}

export interface FaceJoint {
  /** Clear distance from the face; negative within the barrier. */
  readonly distance: number;
  readonly from: JointEvidence;
  /** What comes next there; null: nothing is known to. */
  readonly to: (ElementRef & { readonly name: string; readonly element: AirElementKind }) | null;
}

export const FACE_OBSTACLE_KINDS = [
  'wall',
  'floor',
  'roof',
  'column',
  'duct',
  'pipe',
  'cable',
  ...OBSTACLE_KINDS,
] as const;

export interface FaceObstacle extends ElementRef {
  readonly kind: (typeof FACE_OBSTACLE_KINDS)[number];
  readonly name: string;
  /** Of the duct; null: in line with it. */
  readonly side: Side | null;
  /** In the barrier's plane, from the duct as it lies there: how wide a ring with sharp corners may be; 0: in line. */
  readonly distance: number;
  /**
   * How wide a ring stays clear of it by how far that reaches before the face: straight between these points, level
   * beyond the last; before the first nothing is in the way.
   */
  readonly clear: readonly (readonly [depth: number, width: number])[];
}

/** Where people look for it: grid lines and rooms, as far as the models have them. */
export interface Place {
  /** Nearest axes with the way from them, e.g. `C + 1.2 m / 4`; + is towards the axes that are listed later. */
  readonly grid: string | null;
  /** Behind the barrier, seen against `frame.normal`, and before it. */
  readonly rooms: readonly [Room | null, Room | null];
}

export interface Room extends ElementRef {
  /** Number and name. */
  readonly name: string;
}

/** Two aligned duct ends of one system on either side of a barrier with nothing between. */
export interface FacingEnds {
  /** Stable between revisions: the GlobalIds of the two ends. */
  readonly key: string;
  readonly barrier: BarrierFacts;
  readonly ends: readonly [ElementRef, ElementRef];
  readonly system: string;
  readonly storey: Storey | null;
  /** Middle of the barrier between the two ends, world coordinates. */
  readonly position: Vec3;
  /** Clear distance between the two ends. */
  readonly distance: number;
}

/** A file whose ductwork and barriers lie away from those of all others, so that they can't belong together as they are. */
export interface FileApart {
  /** The file that lies apart. */
  readonly model: string;
  /** The file nearest to it of those that lie together. */
  readonly from: string;
  /** Clear distance between the boxes of the two. */
  readonly distance: number;
  /** From the middle of `from` to the middle of `model`. */
  readonly offset: Vec3;
}

/** An opening of a barrier that services pass, all of them together. */
export interface OpeningSubject extends OpeningFacts {
  readonly id: string;
  readonly barrier: ElementRef;
  readonly penetrations: readonly string[];
  readonly services: readonly (ElementRef & { readonly kind: 'duct' | 'pipe' | 'cable' | 'other' })[];
  readonly areaM2: number;
  /** What is to be sealed: the opening less the services in it. */
  readonly freeAreaM2: number;
  /** More than one service: only a test of them together proves the seal. */
  readonly combined: boolean;
  /** Middle of the opening, world coordinates. */
  readonly position: Vec3;
}

/** `touching`: inferred, since no port says anything there; `end`: a piece ends, and nothing shows what it is joined to. */
export const JOINT_EVIDENCE = ['ports', 'touching', 'end'] as const;
export type JointEvidence = (typeof JOINT_EVIDENCE)[number];

/** Where air passes from one element to another. */
export interface Joint {
  readonly elements: readonly [ElementRef, ElementRef];
  /** World coordinates. */
  readonly at: Vec3;
  /** `touching`: inferred, since no port says anything at this end. */
  readonly from: 'ports' | 'touching';
  /** `forward`: from the first element to the second, as ports say; null where they do not. */
  readonly flow: 'forward' | 'backward' | null;
}

/** Ductwork that is joined, between terminals and equipment. */
export interface Run {
  readonly id: string;
  /** Null where the elements name several systems, or none. */
  readonly system: string | null;
  readonly systems: readonly string[];
  readonly elements: readonly ElementRef[];
  /** Also those with what it serves. */
  readonly joints: readonly Joint[];
  /** Terminals and equipment at its ends. */
  readonly serves: readonly ElementRef[];
  /** Of its straight pieces together. */
  readonly length: number;
  /** Elements at which it divides: three joints or more. */
  readonly branches: readonly ElementRef[];
  readonly risers: readonly Riser[];
  readonly stretches: readonly Stretch[];
}

/** What a walk along a run may begin or end at. */
export interface AccessStop extends ElementRef {
  /** `end`: nothing is modelled there, so it may be open; `terminal`: air goes in or out, or is treated. */
  readonly kind: 'panel' | 'end' | 'terminal';
  readonly name: string;
  /** World coordinates, on the axis of the duct. */
  readonly at: Vec3;
}

/** A panel, door or cover through which ductwork is reached. */
export interface AccessPanel extends ElementRef {
  readonly name: string;
  /** What shows that it is one, in words. */
  readonly evidence: string;
  /** The piece of ductwork that it lies on. */
  readonly duct: ElementRef;
  /** Middle of its body, world coordinates. */
  readonly at: Vec3;
  /** Of level ducts; left and right as seen along the axis as it is drawn. Null: on a riser, or on what is not straight. */
  readonly side: Side | null;
  /** Along the duct and across it, as it is drawn. Null: the duct has no axis. */
  readonly width: number | null;
  readonly height: number | null;
  /** From the panel to the nearer edge of the side that it lies on; null: the duct has no flat sides. */
  readonly toEdge: number | null;
  /** Along the run from where its walk begins; null: it can't be walked there. */
  readonly chainage: number | null;
  /** The nearest barrier that this piece, or one that it joins, passes; the distance is to its face. */
  readonly barrier: { readonly penetration: string; readonly distance: number } | null;
}

/** The way from one stop to the next along a run, with none nearer between them. */
export interface AccessGap {
  readonly from: AccessStop;
  readonly to: AccessStop;
  /** Along the axes of the ducts. */
  readonly length: number;
  /** The longest stretch of it that is level, or nearer to level than to upright. */
  readonly level: number;
  /** Its corners with how far along it they are; `free`: from there to the next goes a straight duct. World coordinates. */
  readonly path: readonly { readonly at: Vec3; readonly chainage: number; readonly free: boolean }[];
}

/** A change of direction of more than 45°. */
export interface Bend extends ElementRef {
  readonly name: string;
  readonly at: Vec3;
  /** Degrees. */
  readonly angle: number;
  /** Along the duct to the nearest stop, and which one that is; null: the run has none. */
  readonly toAccess: number | null;
  readonly nearest: AccessStop | null;
}

/** How a run is reached from outside. */
export interface RunAccess {
  readonly run: string;
  readonly systemType: string | null;
  readonly systemNames: readonly string[];
  /** All panels are modelled, as the brief says; null: nobody says so. */
  readonly complete: true | null;
  readonly panels: readonly AccessPanel[];
  readonly gaps: readonly AccessGap[];
  readonly bends: readonly Bend[];
}

/** A place where an access panel would do what is asked; nothing of it is there for that. */
export interface ProposedPanel {
  readonly run: string;
  readonly system: string | null;
  readonly at: Vec3;
  /** Least width and height; null: nothing that holds says. */
  readonly size: number | null;
  readonly reason: string;
  readonly source: string;
}

/** Upright ductwork of a run that passes a floor or a roof. */
export interface Riser {
  readonly elements: readonly ElementRef[];
  /** Of the floors and roofs that it passes. */
  readonly penetrations: readonly string[];
  /** Heights of its foot and its head, world coordinates. */
  readonly from: number;
  readonly to: number;
}

/** What lies of a run between one barrier that may be rated and the next. */
export interface Stretch {
  /** The run's id and a number, e.g. `R-001.2`. */
  readonly id: string;
  /** null: in none that is known. */
  readonly compartment: string | null;
  /** It lies outside the building; null: the models do not show it. */
  readonly outside: boolean | null;
  readonly parts: readonly StretchPart[];
  /** Where it goes on behind a barrier. */
  readonly ends: readonly StretchEnd[];
  /** Terminals and equipment of which air comes or to which it goes. */
  readonly serves: readonly ElementRef[];
  /** Ends at which nothing is modelled: open, or closed by what nobody drew; world coordinates. */
  readonly looseEnds: readonly Vec3[];
  /** Of its parts together, along their axes. */
  readonly length: number;
  /** What stands near it, where it is or may have to be protected; by obstacle and side, the nearest first. */
  readonly clearances: readonly Clearance[];
}

/** What takes up room beside a duct: barriers, columns, obstacles, other services, other ductwork. */
export interface Neighbour extends ElementRef {
  readonly name: string;
  readonly what: 'barrier' | 'column' | 'obstacle' | 'service' | 'duct';
  readonly kind: BarrierKind | 'column' | Obstacle['kind'] | OtherService['kind'] | AirElementKind;
  /** null: nothing tells. */
  readonly combustible: boolean | null;
  /** Of a barrier. */
  readonly construction: Construction | null;
  /** Of ductwork: its run, and what protects it. */
  readonly run: string | null;
  readonly protection: DuctProtection | null;
}

/** How near something stands to a stretch of a run. The barriers that it passes there, and what it is joined with, are left out. */
export interface Clearance {
  readonly obstacle: Neighbour;
  /** Of the duct, as of penetrations: seen along its axis, of an upright one on plan; null: bends, or it lies within. */
  readonly side: Side | null;
  readonly distance: number;
  /** What of the duct it is measured from: the outside of its sheet where that is known, else what is drawn. */
  readonly from: 'sheet' | 'drawn';
  /** What the drawn outline is the outside of. */
  readonly outline: DuctWall['outline'];
  /** On the obstacle, where it is nearest; world coordinates. */
  readonly at: Vec3;
  /** Over which it stands nearer than ROOM_REACH, along the duct; null: beside bends and the like alone. */
  readonly length: number | null;
  /** Pieces of the duct beside which it stands, the nearest first. */
  readonly elements: readonly ElementRef[];
}

export interface StretchEnd {
  readonly penetration: string;
  /** Which part of the stretch passes the barrier, by its place in `parts`. */
  readonly part: number;
}

/** A piece of ductwork, or as much of it as lies in the stretch. */
export interface StretchPart extends ElementRef {
  readonly name: string;
  readonly element: AirElementKind;
  /** GlobalId; null: its file names none. */
  readonly storey: string | null;
  /** Its two ends, or those of what lies here; of a branch the two that are furthest apart. World coordinates. */
  readonly from: Vec3;
  readonly to: Vec3;
  readonly length: number;
  /** As of the stretch. */
  readonly outside: boolean | null;
  /** Places in `parts` of those that it joins. */
  readonly joins: readonly number[];
  readonly protection: DuctProtection;
  /** null: nothing is said to protect it, so nothing that goes round it is counted. */
  readonly measures: PartMeasures | null;
}

/** Outside of the sheet, square to the duct. */
export interface DuctSection {
  readonly shape: 'rectangular' | 'circular' | 'oval';
  readonly width: number | null;
  readonly height: number | null;
  readonly diameter: number | null;
}

/** What of a piece of ductwork has to be known to count what goes round it. */
export interface PartMeasures {
  /** Of a straight piece: level across it, and square to that; of an upright one its two sides. Null: not straight, or not known. */
  readonly section: DuctSection | null;
  /** Of a straight piece. */
  readonly way: 'level' | 'upright' | null;
  /** Of what is not straight, as far as they have such a shape: the longer side as the width. */
  readonly ends: readonly DuctSection[];
  /** Outside of what is not straight, without its open ends; of what lies in the stretch. Null: straight, or not known. */
  readonly surfaceM2: number | null;
  /** Outside the sheet, which protection would lie on; null: nothing shows any. */
  readonly insulation: WallLayer | null;
  /** How much of its length lies between the faces of barriers. */
  readonly inBarrier: number;
  /** Why its section, or its surface, is not known. */
  readonly unknown: string | null;
}

/** What the model or the brief says protects a piece of ductwork over its length; no proof of anything. */
export interface DuctProtection {
  readonly kind: 'blanket' | 'board' | 'fireResistingDuct' | 'none' | 'unknown';
  readonly evidence: string | null;
  readonly layers: number | null;
  /** Minutes as declared. */
  readonly integrity: number | null;
  readonly insulation: number | null;
}

/** A straight piece of ductwork as a support has to carry it: width level across it, height square to that; of an upright one its two sides. */
export interface CarriedDuct extends ElementRef, DuctSection {
  readonly name: string;
  readonly way: 'level' | 'upright';
  readonly sheet: WallLayer | null;
  readonly insulation: WallLayer | null;
  readonly material: DuctMaterial;
}

/** Elements that hold one piece of ductwork at one place. */
export interface SupportFacts {
  /** The GlobalId of the first of its elements. */
  readonly id: string;
  readonly name: string;
  readonly elements: readonly ElementRef[];
  /** The piece of ductwork that it carries, and its run. */
  readonly carries: ElementRef;
  readonly run: string;
  /** On the axis of the duct, world coordinates. */
  readonly position: Vec3;
  readonly rod: Rod | null;
  readonly bearer: string | null;
  /** Of its longest upright slender body; null: none is drawn. */
  readonly rodLength: number | null;
  readonly hangsFrom: HangsFrom | null;
  /** What lies of the duct nearer to this support than to the next; null: a riser begins there, or supports may be missing. */
  readonly carried: number | null;
}

export interface HangsFrom extends ElementRef {
  readonly name: string;
  readonly kind: BarrierKind | Obstacle['kind'];
  readonly construction: Construction;
  readonly rating: Rating;
}

/**
 * A length of ductwork without a support on it. `supports`: from one to the next; `barrier`: from the face of a barrier to
 * the first; `end`: beyond the last; `riser`: upright, from one to the next, or all of it where there is none; `riserEnd`:
 * upright, beyond the last.
 */
export const SPAN_KINDS = ['supports', 'barrier', 'end', 'riser', 'riserEnd'] as const;
export interface SupportSpan {
  readonly kind: (typeof SPAN_KINDS)[number];
  readonly run: string;
  /** Along the axes of the pieces. */
  readonly length: number;
  /** Ids of the supports at its ends: two, one, or none where the ductwork goes on without any. */
  readonly supports: readonly string[];
  /** Of the kind `barrier`. */
  readonly penetration: string | null;
  /** What it leads along, by the ids of stretches and places in their parts. */
  readonly parts: readonly { readonly stretch: string; readonly part: number }[];
  /** Half-way, world coordinates. */
  readonly at: Vec3;
}

export interface SupportsFound {
  readonly ducts: readonly CarriedDuct[];
  readonly supports: readonly SupportFacts[];
  readonly spans: readonly SupportSpan[];
  /** Runs of which the brief says that all supports are modelled. */
  readonly modelledRuns: readonly string[];
}

/** A part of the building that rated construction parts from the rest. */
export interface Compartment {
  readonly id: string;
  readonly name: string;
  /** What shows it: an element of its own, a property of its spaces, or rated walls that go round it. */
  readonly from: 'zone' | 'property' | 'loop';
  /** null where it goes through several. */
  readonly storey: Storey | null;
  /** On plan; of several storeys laid over each other. null where nothing shows its place. */
  readonly areaM2: number | null;
  /** The rated walls round it. */
  readonly barriers: readonly ElementRef[];
  /** The least of the ratings of its walls, floor and ceiling, criterion by criterion; null where none of them is rated. */
  readonly leastRating: Rating | null;
  readonly spaces: readonly ElementRef[];
  /** Doors and windows in its walls, and in floors and roofs under and over it. */
  readonly doors: readonly DoorFacts[];
  /** On plan, world x and y, counter-clockwise. Unrated walls within it and at the outside belong to its area. */
  readonly outlines: readonly Polygon[];
  readonly holes: readonly Polygon[];
  /** What is under and over it as a whole, not between those of its storeys that are open to each other. */
  readonly floor: CompartmentEnd;
  readonly ceiling: CompartmentEnd;
  /** By rated walls all round; false: there are leaks; null: it ends at walls not known to be rated, or is only stated. */
  readonly walled: boolean | null;
  /**
   * By walls all round and up to the structure, floor and ceiling; false: something is open or known not to be rated;
   * null: not to be known.
   */
  readonly closed: boolean | null;
  readonly leaks: readonly Leak[];
  /** By the names of its spaces, or its own; null where these say nothing. Its size says nothing. */
  readonly shaft: boolean | null;
  readonly enclosure: Enclosure;
}

export const END_STATES = ['rated', 'ground', 'open', 'unrated', 'unknown'] as const;
/**
 * What a compartment ends at below or above.
 * `rated`: rated construction all over. `ground`: no storey is under it for fire to come from, whatever its slab is rated
 * for. `open`: part of it has no floor, or an opening that nothing fills or passes. `unrated`: part of it is known not to
 * be rated. `unknown`: nothing tells of part of it. Openings that services pass count as closed: their seals are judged
 * by themselves.
 */
export type EndState = (typeof END_STATES)[number];

export interface CompartmentEnd {
  /** null: no floors or roofs are modelled there. */
  readonly state: EndState | null;
  readonly barriers: readonly ElementRef[];
  /** Of those that are rated; null where none is. */
  readonly leastRating: Rating | null;
  /** What is open. */
  readonly openM2: number;
}

/** A door or window in a barrier. */
export interface DoorFacts extends ElementRef {
  readonly name: string;
  readonly rating: Rating;
  /** Middle of the opening that it fills, world coordinates. */
  readonly at: Vec3 | null;
  readonly barrier: ElementRef;
}

/** Known to be so: `leak` to `doorUnrated`; not known: the others. */
export const ENCLOSURE_GAPS = [
  'leak',
  'wallHead',
  'floorOpen',
  'floorUnrated',
  'ceilingOpen',
  'ceilingUnrated',
  'doorUnrated',
  'wallUnknown',
  'wallOpening',
  'floorUnknown',
  'ceilingUnknown',
  'doorUnknown',
] as const;
/**
 * Why a compartment does not keep fire in or out. `wallHead`: a wall stops short of the structure above it;
 * `wallUnknown`: it ends at walls not known to be rated, none are found, or the head of one can't be measured; `wallOpening`: nothing fills or passes an opening, which may be a recess; `floorUnknown`, `ceilingUnknown`: not
 * modelled, or its rating is not known.
 */
export type EnclosureGap = (typeof ENCLOSURE_GAPS)[number];

/** Whether all faces of a compartment hold back fire, doors too. A shaft protects what is in it only where they do. */
export interface Enclosure {
  readonly complete: boolean | null;
  /** Of walls, floor, ceiling and doors; null where none of them is rated. */
  readonly leastRating: Rating | null;
  readonly reasons: readonly { readonly gap: EnclosureGap; readonly elements: readonly ElementRef[] }[];
}

/** Where rated walls round a compartment do not meet. */
export interface Leak {
  /** In the middle of the gap, at the height of the cut; world coordinates. */
  readonly at: Vec3;
  readonly width: number;
  /** The second may be an unrated outer wall that the first one does not reach. */
  readonly between: readonly [ElementRef, ElementRef];
}

/** All that `find` found: what `judge` looks at. */
export interface Crossings {
  readonly compartments: readonly Compartment[];
  readonly runs: readonly Run[];
  /** Of the runs in their order. */
  readonly access: readonly RunAccess[];
  readonly barriers: readonly BarrierFacts[];
  /** In rated barriers. */
  readonly doors: readonly DoorFacts[];
  readonly penetrations: readonly Penetration[];
  readonly facingEnds: readonly FacingEnds[];
  readonly openings: readonly OpeningSubject[];
  readonly apart: readonly FileApart[];
  /** Left out by programs that do not look for supports. */
  readonly supports?: SupportsFound | undefined;
}

// ---------------------------------------------------------------------------------------------------------- findings

/** How far a rule document can be trusted; only `tested` proves anything. */
export type RuleStatus = 'tested' | 'unverified' | 'demonstration';
/** W3C EARL 1.0 outcome names. */
export type Outcome = 'passed' | 'failed' | 'cantTell' | 'inapplicable' | 'untested';
export const OUTCOMES = [
  'passed',
  'failed',
  'cantTell',
  'inapplicable',
  'untested',
] as const satisfies readonly Outcome[];

/** Of what is measured: millimetres, degrees, minutes of fire resistance. */
export const UNITS = ['mm', 'deg', 'min'] as const;
export type Unit = (typeof UNITS)[number];

export type SubjectType = 'penetration' | 'run' | 'duct' | 'barrier' | 'opening' | 'model';

export interface Limit {
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly equals?: number | string | boolean;
  readonly among?: readonly (number | string)[];
}

export interface Finding {
  readonly id: string;
  readonly key: string;
  readonly check: string;
  readonly outcome: Outcome;
  /** Set when only the evidence is missing: the facts meet a limit that proves nothing. */
  readonly wouldBe: 'passed' | null;
  readonly subject: { readonly type: SubjectType; readonly id: string; readonly elements: readonly ElementRef[] };
  readonly side: Side | null;
  readonly at: Vec3 | null;
  readonly measured: number | string | boolean | null;
  readonly limit: Limit | null;
  /** Distance inside the limit; negative when missed. */
  readonly margin: number | null;
  /** What the margin has to hold for the limit to be met; null where the check asks for none, or nothing is known. */
  readonly tolerance: Tolerance | null;
  readonly message: string;
  readonly remedy: string | null;
  /** What would mend it, proven by applying it to the models and judging again; null: nothing is known that does. */
  readonly change: Change | null;
  /** With cantTell: the facts that were not to be had, e.g. `barrier.rating`. */
  readonly missing: readonly string[];
  readonly concession: Concession | null;
}

/** All of it along one direction; what is joined goes along, so that no joint is torn. */
export interface MoveDuct {
  readonly kind: 'moveDuct';
  /** World axes. */
  readonly by: Vec3;
  /** Each goes as a whole, with the access panels on it. */
  readonly elements: readonly ElementRef[];
  /**
   * Each ends the move: a straight piece along the way that becomes longer (+) or shorter (-), or a flexible duct (0); with
   * the end that goes along, world coordinates before the move.
   */
  readonly lengths: readonly (ElementRef & { readonly by: number; readonly end: Vec3 })[];
}

/** + cuts more of the barrier away, which the structural engineer has to agree to; - builds it up in its rated construction. */
export interface ChangeOpening {
  readonly kind: 'changeOpening';
  readonly penetration: string;
  readonly barrier: ElementRef;
  /** null: a hole in the barrier's own body. */
  readonly opening: ElementRef | null;
  /** How far each edge goes; of a circular opening all are 0. */
  readonly sides: { readonly [S in Side]: number };
  /** Of a circular opening, about its own middle; of others 0. */
  readonly diameter: number;
}

export interface NewOpening {
  readonly kind: 'newOpening';
  readonly penetration: string;
  readonly barrier: ElementRef;
  readonly shape: 'rectangular' | 'circular';
  /** Along `along`; of a circular opening the diameter, like `height`. */
  readonly width: number;
  readonly height: number;
  /** World coordinates, in the barrier's middle plane. */
  readonly centre: Vec3;
  /** What it takes the place of, the rest of which is built up; null: there is none. */
  readonly instead: ElementRef | null;
  /** Direction of the width, unit. */
  readonly along: Vec3;
}

/** Another tested detail at one penetration, as the brief would settle it; nothing of the building changes. */
export interface Choose {
  readonly kind: 'chooseFixing' | 'chooseLayers' | 'chooseDetail' | 'chooseSystem';
  readonly penetration: string;
  /** Ids of the tested system, its fixing and its detail; null: it needs none. */
  readonly testedSystem: string;
  readonly fixing: string | null;
  readonly detail: string | null;
  /** null: not known how many are there or are asked for. */
  readonly layers: number | null;
}

export type SingleChange = MoveDuct | ChangeOpening | NewOpening | Choose;
/** What is to be done to the models, or in the brief, so that a finding goes and no new one comes. */
export type Change = SingleChange | { readonly kind: 'several'; readonly changes: readonly SingleChange[] };

/** Both in millimetres, and both at once: what is built may be off one way and what was measured the same way. */
export interface Tolerance {
  /** How far what is built may lie off what is modelled, as the brief has it. */
  readonly site: number;
  /** How far what is modelled may lie off what was measured. */
  readonly measuring: number;
}

/** Leave that somebody gave for what was found; it stands beside the outcome and changes nothing. Dates are ISO 8601. */
export interface Concession {
  readonly reason: string;
  readonly grantedBy: string;
  readonly role: string;
  readonly reference: string;
  readonly date: string;
  readonly expires: string | null;
  readonly state: 'inForce' | 'lapsed';
  /** Why it has lapsed; null while it is in force. */
  readonly because: string | null;
}

export interface RuleInfo {
  readonly id: string;
  readonly version: string;
  readonly file: string;
  readonly status: RuleStatus;
  readonly source: string;
}

/** Work that must wait until a finding is settled, in the order of the site. Common practice, no source. */
export const HOLD_POINTS = ['formingOpening', 'closingUp', 'handover'] as const;
export type HoldPoint = (typeof HOLD_POINTS)[number];

export interface CheckResult {
  readonly id: string;
  readonly title: string;
  readonly about: 'model' | 'fire';
  readonly unit: Unit | null;
  /** What a failure stops; null where the rule document does not say. */
  readonly stops: HoldPoint | null;
  readonly basis: {
    readonly source: string;
    readonly clause: string | null;
    readonly status: RuleStatus;
    /** Of a check that belongs to one code and one edition of it; null: it holds anywhere. */
    readonly jurisdiction: string | null;
    readonly edition: string | null;
  };
  /** `wouldPass` is the part of cantTell whose facts meet a limit that proves nothing. */
  readonly outcomes: { readonly [O in Outcome]: number } & { readonly wouldPass: number };
}

/** Why something is asked of a run. `brief`: the project says so; `model`: the models show it. */
export interface DemandReason {
  readonly says: string;
  readonly source: string;
  readonly status: RuleStatus | 'brief' | 'model';
}

/** A stretch of a run that has to hold back fire and does not, or of which that is not known. */
export interface StrategyLapse {
  /** `inLine`: a fan, a silencer or a flexible duct among what is protected, which was not tested there. */
  readonly kind: 'bare' | 'untold' | 'inLine';
  readonly length: number;
  /** Its two ends, world coordinates. */
  readonly from: Vec3;
  readonly to: Vec3;
  readonly compartments: readonly string[];
  readonly elements: readonly ElementRef[];
  /** It is not known whether protection is needed here. */
  readonly doubtful: boolean;
}

/** A row of the strategy table: a run, or as much of it as lies between fire dampers. */
export interface StrategyRow {
  readonly run: string;
  /** Which part of the run between fire dampers, from 1. */
  readonly part: number;
  readonly system: string | null;
  readonly service: Service | null;
  /** null: it can't be told. */
  readonly mustResist: boolean | null;
  /** Minutes asked for; null where not known. */
  readonly required: { readonly integrity: number | null; readonly insulation: number | null };
  readonly fire: FireSide | null;
  readonly reasons: readonly DemandReason[];
  /** Ids of the compartments that it opens into, and of those that it leads through. */
  readonly serves: readonly string[];
  readonly passes: readonly string[];
  readonly reachesOutside: boolean;
  readonly crossings: readonly { readonly penetration: string; readonly treatment: Penetration['treatment']['kind'] }[];
  /** What the models or the brief say is there, and over what length of what must resist. */
  readonly there: readonly {
    readonly kind: DuctProtection['kind'];
    readonly evidence: string | null;
    readonly length: number;
  }[];
  /** Ids of the stretches that it is made of. */
  readonly stretches: readonly string[];
  /** That it is judged by at its barriers; null: by none, or by several. */
  readonly testedSystem: { readonly id: string; readonly fixing: string | null } | null;
  /** Tested systems that would do at every barrier without a fire damper; nothing of it is there for that. */
  readonly wouldFit: readonly { readonly system: string; readonly status: RuleStatus }[];
  readonly lapses: readonly StrategyLapse[];
  /** Ids of failed findings on the run and at its penetrations. */
  readonly contradictions: readonly string[];
}

/** Of one metre of duct; null: not known. */
export interface SupportMass {
  readonly thickness: number | null;
  /** kg/m³. */
  readonly density: number | null;
  /** kg/m. */
  readonly perMetre: number | null;
  /** `published`: a table of a standard, which proves nothing. */
  readonly from: 'model' | 'brief' | 'system' | 'published' | null;
}

/** A row of the support schedule: the ductwork of one section in one stretch that must hold back fire. */
export interface SupportRow {
  readonly run: string;
  readonly part: number;
  readonly stretch: string;
  readonly system: string | null;
  readonly elements: readonly ElementRef[];
  readonly shape: SectionShape;
  readonly width: number | null;
  readonly height: number | null;
  readonly diameter: number | null;
  /** Of the straight pieces; upright ones stand on floors and have no row. */
  readonly length: number;
  /** That the supports must hold. */
  readonly minutes: number | null;
  readonly sheet: SupportMass;
  readonly insulation: SupportMass;
  readonly protection: SupportMass;
  /** kg/m, of all of them. */
  readonly perMetre: number | null;
  readonly rod: Rod | null;
  readonly rods: number;
  readonly bearer: string | null;
  readonly bearerLength: number | null;
  /** kg. */
  readonly bearerMass: number | null;
  readonly testedSystem: string | null;
  readonly testedStatus: RuleStatus | null;
  /** Greatest distance between supports: as tested, by the stress in the rods, the smaller of both where both are known. */
  readonly spacing: {
    readonly tested: number | null;
    readonly byStress: number | null;
    readonly governing: number | null;
  };
  /** N and N/mm², at the governing spacing; of one support, of one rod. */
  readonly load: number | null;
  readonly rodLoad: number | null;
  readonly rodStress: number | null;
  readonly rodStressAllowed: number | null;
  readonly rodStressFrom: 'system' | 'published' | null;
  readonly bearerStress: number | null;
  readonly bearerStressAllowed: number | null;
  readonly firstSupport: number | null;
  readonly rodLengthAtMost: number | null;
  /** How far a rod of one metre grows in that time; null: not known, or the line of EN 1993-1-2 does not hold. */
  readonly growthPerMetre: number | null;
  /** How many are needed at the governing spacing, and how many the models have. */
  readonly needed: number | null;
  readonly found: number;
}

/** One limit of a tested system, held against one penetration. */
export interface ScopeLine {
  /** Short name of the limit. */
  readonly name: string;
  /** The check that judges it. */
  readonly check: string;
  /** What is measured, in words. */
  readonly what: string;
  readonly unit: Unit | null;
  /** null: not known. */
  readonly measured: number | string | null;
  /** Where that was taken from, in words. */
  readonly from: string;
  /** null: the document, or what is not known, leaves it open. */
  readonly limit: Limit | null;
  readonly outcome: 'met' | 'missed' | 'unknown';
  /** Distance inside the limit, negative when missed; null of what is not measured in numbers. */
  readonly margin: number | null;
  /** Where the limit stands: clause, table or page, else the document's own source. */
  readonly source: string;
}

/** A tested system with one of its fixings and one of its details; each by its id. */
export interface TestedDetail {
  /** The names of all of them, for people. */
  readonly title: string;
  /** Of the document, for every limit that names none of its own. */
  readonly source: string;
  readonly system: string;
  /** null: none is known to be for this barrier. */
  readonly detail: string | null;
  readonly status: RuleStatus;
  /** null: it needs none. */
  readonly fixing: string | null;
  /** null: not known how many are there or are asked for. */
  readonly layers: number | null;
  /** kg of protection on one metre of duct, with the local build-up; null: not known. */
  readonly material: number | null;
  /** The limit that leaves least, or is missed most; null where none is in numbers. */
  readonly tightest: ScopeLine | null;
}

/** Where a bead runs: in the gap itself, or along the edge where two things meet. */
export type Seam = 'gap' | 'blanketToBoard' | 'boardToBarrier' | 'blanketToBarrier' | 'ductToBarrier';

/** Of fasteners; what the document does not say is null. */
export interface BuiltScrews {
  /** Between centres, at most. */
  readonly spacing: number;
  readonly type: string | null;
  /** true: they must hold in the framing. */
  readonly reachesFraming: boolean | null;
}

/** Where it stands in the document, and on how many faces it is built. */
interface Built {
  readonly source: string;
  /** one: on either of them, whichever that is. */
  readonly faces: 'both' | 'one';
}

/**
 * A part of a tested detail with its sizes for the duct at hand, mm; null: the document does not say, or its table has no
 * row for such a duct.
 */
export type BuiltPart =
  | (Built & { readonly part: 'packing'; readonly material: string })
  | (Built & {
      readonly part: 'angle';
      readonly sides: 'all' | 'top and bottom' | 'left and right';
      readonly leg: number | null;
      readonly thickness: number | null;
      readonly intoBarrier: BuiltScrews;
      /** null: none may go through the duct. */
      readonly intoDuct: BuiltScrews | null;
    })
  | (Built & {
      readonly part: 'boardCollar';
      readonly material: string;
      /** Across the duct, from where it lies against it. */
      readonly width: number | null;
      readonly thickness: number | null;
      readonly drilledFromEnd: { readonly atLeast: number | null; readonly atMost: number | null } | null;
      readonly intoBarrier: BuiltScrews | null;
    })
  | (Built & {
      readonly part: 'localBuildUp';
      /** Along the duct, from the face of the barrier. */
      readonly length: number | null;
      /** On those along the duct. */
      readonly layers: number;
    })
  | (Built & {
      readonly part: 'sealant';
      readonly at: readonly Seam[];
      readonly depth: number | null;
      readonly width: number | null;
    });

/** What is built by a tested detail at one penetration. */
export interface BuiltAs {
  /** In the order of the work; none where no detail is known to be for this barrier. */
  readonly parts: readonly BuiltPart[];
  /** Of one layer as fixed, mm; null: the document does not say. */
  readonly layerThickness: number | null;
  /** null: in a report from before it was written. */
  readonly protection: 'blanket' | 'board' | 'fireResistingDuct' | null;
  /** Whether the protection ends at the faces or goes through; null as for `parts`. */
  readonly gapDatum: 'stopsAtFace' | 'passesThrough' | null;
  /** one: tested as built from either face alone; null as for `parts`. */
  readonly faces: 'both' | 'one' | null;
}

/** What the tested systems have for one penetration. */
export interface TestedFor {
  readonly penetration: string;
  /** What it is judged by; null: nothing, or a tested damper. */
  readonly chosen:
    | (TestedDetail & BuiltAs & { readonly by: 'brief' | 'review'; readonly scope: readonly ScopeLine[] })
    | null;
  /** What would fit, whatever is there now; the best first. */
  readonly feasible: readonly TestedDetail[];
  /** Where nothing fits: what comes nearest, with all that it misses and all that is not known. */
  readonly nearest: readonly (TestedDetail & {
    readonly misses: readonly ScopeLine[];
    readonly unknown: readonly ScopeLine[];
  })[];
}

/** What `judge` gives. */
export interface Judgement {
  /** By the ids of the penetrations. */
  readonly tested: readonly TestedFor[];
  readonly supports: readonly SupportRow[];
  readonly rules: readonly RuleInfo[];
  readonly strategy: readonly StrategyRow[];
  /** Panels that would have to be there; none where all are, or where nothing says how far apart they may be. */
  readonly proposedPanels: readonly ProposedPanel[];
  /** Places with faults that a change may mend, but past the worst that are solved; null: no remedy was sought at all. */
  readonly unsolvedPlaces: number | null;
  readonly checks: readonly CheckResult[];
  readonly findings: readonly Finding[];
}
