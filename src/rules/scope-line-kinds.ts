/** What the scope of a tested system is made of, one entry for each limit that a penetration can miss. */
import type { Unit } from '../model.js';
import type { FactObject } from './fact-schema.js';
import { factOf, textOf } from './read-fact.js';
import type { Tested } from './system-facts.js';

/** Facts of the penetration, and as `system` those of the tested system there. Paths lead from here. */
export type AtPenetration = FactObject & { readonly system: FactObject };

export interface LineKind {
  /** Short name, as examples of documents have it. */
  readonly name: string;
  /** The check that judges it. */
  readonly check: string;
  /** Path of what is measured. */
  readonly fact: string;
  /** What that is called here, where the fact's own words would not tell it from another line. */
  readonly what?: string;
  readonly unit?: Unit;
  /** Left out: it always counts. */
  readonly when?: (at: AtPenetration, tested: Tested) => boolean;
  /** Words that were tested, and the path of whether this is one of them. */
  readonly among?: (tested: Tested) => readonly string[];
  readonly allowed?: string;
  /** Paths of numbers. */
  readonly atLeast?: string;
  readonly atMost?: string;
  /** What the margin has to hold, as of the check: `site`, and facts that say how exactly it is measured. */
  readonly tolerances?: readonly string[];
  /** The comparison tells nothing after all. */
  readonly untold?: (at: AtPenetration, is: { readonly met: boolean; readonly over: boolean }) => boolean;
  /** Where the limit stands, if not in the source of the whole document. */
  readonly source?: (tested: Tested) => string | undefined;
}

const isCircular = (at: AtPenetration): boolean => textOf(at, 'duct.shape') === 'circular';
const hasShape = (at: AtPenetration): boolean => at.system.shapeAllowed !== false;
const hasConstruction = (at: AtPenetration): boolean => at.system.constructionAllowed !== false;
const isHeld = (at: AtPenetration): boolean => at.system.fixingNeeded === true;
const isHeldShape = (at: AtPenetration): boolean => isHeld(at) && at.system.fixingShapeAllowed !== false;
const ofDuct = ({ system }: Tested) => system.scope.duct.source;
const ofSheet = (tested: Tested) => tested.system.scope.duct.sheet?.source ?? ofDuct(tested);
const ofPressure = (tested: Tested) => tested.system.scope.duct.pressure?.source ?? ofDuct(tested);
const ofFixing = ({ fixing }: Tested) => fixing?.source;
const ofDetail = ({ detail }: Tested) => detail?.source;
const ofGap = ({ system, detail }: Tested) =>
  detail?.gap ? (detail.gap.source ?? detail.source) : system.scope.gap.source;
const ofOpening = ({ detail }: Tested) => detail?.openingAtMost?.source ?? detail?.source;

const constructionsOf = ({ system }: Tested) => [
  ...new Set(system.scope.barriers.map(({ construction }) => construction)),
];
const shapesOf = (limits: object) =>
  ['rectangular', 'oval', 'circular'].filter((shape) => shape in limits && limits[shape as keyof object] !== undefined);

/** An outline that may be that of insulation: the gap to the sheet is wider, so only one that is too wide is told. */
const isGapUntold: LineKind['untold'] = (at, { over }) => !over && textOf(at, 'penetration.gapsTo') !== 'sheet';

/** A bare duration need not ask for the criterion. */
const mayAskLess: LineKind['untold'] = (at, { met }) => !met && textOf(at, 'barrier.rating.state') === 'durationOnly';

const GAP = {
  check: 'gap-within-tested-range',
  unit: 'mm',
  atLeast: 'system.gapAtLeast',
  atMost: 'system.gapAtMost',
  tolerances: ['site', 'duct.measuredTo'],
  untold: isGapUntold,
  source: ofGap,
} as const satisfies Partial<LineKind>;

const KINDS = [
  {
    name: 'protection',
    check: 'protection-as-tested',
    fact: 'penetration.treatment.kind',
    what: 'the kind of protection',
    allowed: 'system.protectionAllowed',
    among: ({ system }) => [system.protection],
  },
  {
    name: 'shape',
    check: 'duct-shape-tested',
    fact: 'duct.shape',
    allowed: 'system.shapeAllowed',
    among: ({ system }) => shapesOf(system.scope.duct),
    source: ofDuct,
  },
  {
    name: 'material',
    check: 'duct-material-tested',
    fact: 'duct.material',
    allowed: 'system.materialAllowed',
    among: ({ system }) => system.scope.duct.materials,
    source: ofDuct,
  },
  {
    name: 'element',
    check: 'duct-element-tested',
    fact: 'duct.element',
    allowed: 'system.elementAllowed',
    among: ({ system: { scope } }) => [
      'segment',
      ...(scope.duct.flexible ? ['flexible'] : []),
      ...(scope.duct.fittings ? ['fitting'] : []),
    ],
    source: ofDuct,
  },
  {
    name: 'orientation',
    check: 'barrier-orientation-tested',
    fact: 'barrier.kind',
    allowed: 'system.orientationAllowed',
    among: ({ system: { scope } }) =>
      scope.orientation.flatMap((one) => (one === 'walls' ? ['wall'] : ['floor', 'roof'])),
  },
  {
    name: 'construction',
    check: 'barrier-construction-tested',
    fact: 'barrier.construction',
    allowed: 'system.constructionAllowed',
    among: constructionsOf,
  },
  {
    name: 'thickness',
    check: 'barrier-thickness-tested',
    fact: 'barrier.thickness',
    unit: 'mm',
    atLeast: 'system.thicknessAtLeast',
    when: hasConstruction,
  },
  {
    name: 'detail',
    check: 'detail-tested',
    fact: 'barrier.construction',
    what: 'the construction of the barrier, for the detail',
    allowed: 'system.detailTested',
    among: (tested) => tested.detail?.constructions ?? constructionsOf(tested),
    when: hasConstruction,
    source: ofDetail,
  },
  {
    name: 'diameter',
    check: 'duct-diameter-tested',
    fact: 'duct.diameter',
    unit: 'mm',
    atMost: 'system.diameterAtMost',
    when: (at) => hasShape(at) && isCircular(at),
    source: ofDuct,
    tolerances: ['duct.measuredTo'],
  },
  {
    name: 'width',
    check: 'duct-width-tested',
    fact: 'duct.width',
    unit: 'mm',
    atMost: 'system.widthAtMost',
    when: (at) => hasShape(at) && !isCircular(at),
    source: ofDuct,
    tolerances: ['duct.measuredTo'],
  },
  {
    name: 'height',
    check: 'duct-height-tested',
    fact: 'duct.height',
    unit: 'mm',
    atMost: 'system.heightAtMost',
    when: (at) => hasShape(at) && !isCircular(at),
    source: ofDuct,
    tolerances: ['duct.measuredTo'],
  },
  {
    name: 'aspectRatio',
    check: 'aspect-ratio-tested',
    fact: 'duct.aspectRatio',
    atMost: 'system.aspectRatioAtMost',
    when: ({ system }) => system.aspectRatioStated === true,
    source: ofDuct,
  },
  {
    name: 'sheetAtLeast',
    check: 'sheet-thick-enough',
    fact: 'duct.wall.sheet',
    what: "the thickness of the duct's sheet, at least",
    unit: 'mm',
    atLeast: 'system.sheetAtLeast',
    when: ({ system }) => system.sheetAtLeastStated === true,
    source: ofSheet,
  },
  {
    name: 'sheetAtMost',
    check: 'sheet-thin-enough',
    fact: 'duct.wall.sheet',
    what: "the thickness of the duct's sheet, at most",
    unit: 'mm',
    atMost: 'system.sheetAtMost',
    when: ({ system }) => system.sheetAtMostStated === true,
    source: ofSheet,
  },
  {
    name: 'overPressure',
    check: 'pressure-tested',
    fact: 'brief.overPressure',
    atMost: 'system.overPressureAtMost',
    when: ({ system }) => system.overPressureStated === true,
    source: ofPressure,
  },
  {
    name: 'underPressure',
    check: 'underpressure-tested',
    fact: 'brief.underPressure',
    atMost: 'system.underPressureAtMost',
    when: ({ system }) => system.underPressureStated === true,
    source: ofPressure,
  },
  {
    name: 'fixing',
    check: 'fixing-shape',
    fact: 'duct.shape',
    what: 'the shape of the duct, for the fixing',
    allowed: 'system.fixingShapeAllowed',
    among: ({ fixing }) => (fixing ? shapesOf(fixing.limits) : []),
    when: isHeld,
    source: ofFixing,
  },
  {
    name: 'fixingDiameter',
    check: 'fixing-diameter',
    fact: 'duct.diameter',
    what: 'the diameter of the duct, for the fixing',
    unit: 'mm',
    atMost: 'system.fixingDiameterAtMost',
    when: (at) => isHeldShape(at) && isCircular(at),
    source: ofFixing,
    tolerances: ['duct.measuredTo'],
  },
  {
    name: 'fixingWidth',
    check: 'fixing-width',
    fact: 'duct.width',
    what: 'the width of the duct, for the fixing',
    unit: 'mm',
    atMost: 'system.fixingWidthAtMost',
    when: (at) => isHeldShape(at) && !isCircular(at),
    source: ofFixing,
    tolerances: ['duct.measuredTo'],
  },
  {
    name: 'fixingHeight',
    check: 'fixing-height',
    fact: 'duct.height',
    what: 'the height of the duct, for the fixing',
    unit: 'mm',
    atMost: 'system.fixingHeightAtMost',
    when: (at) => isHeldShape(at) && !isCircular(at),
    source: ofFixing,
    tolerances: ['duct.measuredTo'],
  },
  {
    name: 'fixingUnderside',
    check: 'fixing-underside',
    fact: 'duct.underside',
    what: 'the level underside of the duct, for the fixing',
    unit: 'mm',
    atMost: 'system.fixingUndersideAtMost',
    when: ({ system }) => system.fixingUndersideStated === true,
    source: ofFixing,
    tolerances: ['duct.measuredTo'],
  },
  {
    name: 'fire',
    check: 'fire-side-tested',
    fact: 'brief.fire',
    allowed: 'system.fireSideAllowed',
    among: ({ system }) => system.scope.fire ?? [],
  },
  {
    name: 'skew',
    check: 'skew-within-tested-range',
    fact: 'penetration.skew',
    unit: 'deg',
    atMost: 'system.skewAtMost',
    source: ofDetail,
  },
  { name: 'narrowestGap', fact: 'penetration.narrowestGap', ...GAP },
  { name: 'widestGap', fact: 'penetration.widestGap', ...GAP },
  {
    name: 'openingWidth',
    check: 'opening-width-tested',
    fact: 'penetration.opening.width',
    unit: 'mm',
    atMost: 'system.openingWidthAtMost',
    when: ({ system }) => system.openingStated === true,
    source: ofOpening,
    tolerances: ['site'],
  },
  {
    name: 'openingHeight',
    check: 'opening-height-tested',
    fact: 'penetration.opening.height',
    unit: 'mm',
    atMost: 'system.openingHeightAtMost',
    when: ({ system }) => system.openingStated === true,
    source: ofOpening,
    tolerances: ['site'],
  },
  {
    name: 'edgeDistance',
    check: 'edge-distance-tested',
    fact: 'penetration.edgeDistance',
    what: 'the distance of the opening from edges',
    unit: 'mm',
    atLeast: 'system.edgeDistanceAtLeast',
    when: ({ system }) => system.edgeDistanceStated === true,
    source: ofDetail,
    tolerances: ['site'],
  },
  {
    name: 'movement',
    check: 'movement-tested',
    fact: 'brief.movement',
    unit: 'mm',
    atMost: 'system.movementAtMost',
    when: (at) => factOf(at, 'brief.movementGiven') === true,
    source: ofDetail,
  },
  {
    name: 'integrity',
    check: 'integrity-as-tested',
    fact: 'system.integrity',
    unit: 'min',
    atLeast: 'penetration.required.integrity',
    untold: mayAskLess,
  },
  {
    name: 'insulation',
    check: 'insulation-as-tested',
    fact: 'system.insulation',
    unit: 'min',
    atLeast: 'penetration.required.insulation',
    untold: mayAskLess,
  },
] as const satisfies readonly LineKind[];

export type LineName = (typeof KINDS)[number]['name'];
export const LINE_KINDS: readonly (LineKind & { readonly name: LineName })[] = KINDS;
