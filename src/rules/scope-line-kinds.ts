/** What the scope of a tested system is made of, one entry for each limit that a penetration can miss. */
import type { AtDetail, AtFixing, AtPenetration, AtSystem, LineKind } from './line-kind.js';
import { ductShape, factReader, textReader } from './read-fact.js';
import { insulationAsked, integrityAsked, type Tested } from './system-facts.js';

const fact = (path: string) => {
  const read = factReader(path);
  return { fact: path, measured: ({ facts }: AtSystem) => read(facts) };
};

const gapsTo = textReader('penetration.gapsTo');
const ratingState = textReader('barrier.rating.state');
const movementGiven = factReader('brief.movementGiven');

const isCircular = ({ facts }: AtSystem): boolean => ductShape(facts) === 'circular';
const hasShape = ({ system }: AtSystem): boolean => system.shapeAllowed !== false;
const hasConstruction = ({ system }: AtSystem): boolean => system.constructionAllowed !== false;
const isHeld = ({ system }: AtSystem): boolean => system.fixingNeeded;
const isHeldShape = (at: AtFixing): boolean => isHeld(at) && at.fixing.fixingShapeAllowed !== false;
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

/** By what a line goes: each fixing and each detail of a system has such lines of its own, and the rest are the same. */
type Sorted =
  | ({ readonly by: 'system' } & LineKind<AtSystem>)
  | ({ readonly by: 'fixing' } & LineKind<AtFixing>)
  | ({ readonly by: 'detail' } & LineKind<AtDetail>);

/** An outline that may be that of insulation: the gap to the sheet is wider, so only one that is too wide is told. */
const isGapUntold: LineKind<AtSystem>['untold'] = ({ facts }, { over }) => !over && gapsTo(facts) !== 'sheet';

/** A bare duration need not ask for the criterion. */
const mayAskLess: LineKind<AtSystem>['untold'] = ({ facts }, { met }) => !met && ratingState(facts) === 'durationOnly';

const GAP = {
  by: 'detail',
  check: 'gap-within-tested-range',
  unit: 'mm',
  atLeast: ({ detail }) => detail.gapAtLeast,
  atMost: ({ detail }) => detail.gapAtMost,
  tolerances: ['site', 'duct.measuredTo'],
  untold: isGapUntold,
  source: ofGap,
} as const satisfies Partial<Sorted>;

const KINDS = [
  {
    by: 'system',
    name: 'protection',
    check: 'protection-as-tested',
    ...fact('penetration.treatment.kind'),
    what: 'the kind of protection',
    allowed: ({ system }) => system.protectionAllowed,
    among: ({ system }) => [system.protection],
  },
  {
    by: 'system',
    name: 'shape',
    check: 'duct-shape-tested',
    ...fact('duct.shape'),
    allowed: ({ system }) => system.shapeAllowed,
    among: ({ system }) => shapesOf(system.scope.duct),
    source: ofDuct,
  },
  {
    by: 'system',
    name: 'material',
    check: 'duct-material-tested',
    ...fact('duct.material'),
    allowed: ({ system }) => system.materialAllowed,
    among: ({ system }) => system.scope.duct.materials,
    source: ofDuct,
  },
  {
    by: 'system',
    name: 'element',
    check: 'duct-element-tested',
    ...fact('duct.element'),
    allowed: ({ system }) => system.elementAllowed,
    among: ({ system: { scope } }) => [
      'segment',
      ...(scope.duct.flexible ? ['flexible'] : []),
      ...(scope.duct.fittings ? ['fitting'] : []),
    ],
    source: ofDuct,
  },
  {
    by: 'system',
    name: 'orientation',
    check: 'barrier-orientation-tested',
    ...fact('barrier.kind'),
    allowed: ({ system }) => system.orientationAllowed,
    among: ({ system: { scope } }) =>
      scope.orientation.flatMap((one) => (one === 'walls' ? ['wall'] : ['floor', 'roof'])),
  },
  {
    by: 'system',
    name: 'construction',
    check: 'barrier-construction-tested',
    ...fact('barrier.construction'),
    allowed: ({ system }) => system.constructionAllowed,
    among: constructionsOf,
  },
  {
    by: 'system',
    name: 'thickness',
    check: 'barrier-thickness-tested',
    ...fact('barrier.thickness'),
    unit: 'mm',
    atLeast: ({ system }) => system.thicknessAtLeast,
    when: hasConstruction,
  },
  {
    by: 'detail',
    name: 'detail',
    check: 'detail-tested',
    ...fact('barrier.construction'),
    what: 'the construction of the barrier, for the detail',
    allowed: ({ detail }) => detail.detailTested,
    among: (tested) => tested.detail?.constructions ?? constructionsOf(tested),
    when: hasConstruction,
    source: ofDetail,
  },
  {
    by: 'system',
    name: 'diameter',
    check: 'duct-diameter-tested',
    ...fact('duct.diameter'),
    unit: 'mm',
    atMost: ({ system }) => system.diameterAtMost,
    when: (at) => hasShape(at) && isCircular(at),
    source: ofDuct,
    tolerances: ['duct.measuredTo'],
  },
  {
    by: 'system',
    name: 'width',
    check: 'duct-width-tested',
    ...fact('duct.width'),
    unit: 'mm',
    atMost: ({ system }) => system.widthAtMost,
    when: (at) => hasShape(at) && !isCircular(at),
    source: ofDuct,
    tolerances: ['duct.measuredTo'],
  },
  {
    by: 'system',
    name: 'height',
    check: 'duct-height-tested',
    ...fact('duct.height'),
    unit: 'mm',
    atMost: ({ system }) => system.heightAtMost,
    when: (at) => hasShape(at) && !isCircular(at),
    source: ofDuct,
    tolerances: ['duct.measuredTo'],
  },
  {
    by: 'system',
    name: 'aspectRatio',
    check: 'aspect-ratio-tested',
    ...fact('duct.aspectRatio'),
    atMost: ({ system }) => system.aspectRatioAtMost,
    when: ({ system }) => system.aspectRatioStated,
    source: ofDuct,
  },
  {
    by: 'system',
    name: 'sheetAtLeast',
    check: 'sheet-thick-enough',
    ...fact('duct.wall.sheet'),
    what: "the thickness of the duct's sheet, at least",
    unit: 'mm',
    atLeast: ({ system }) => system.sheetAtLeast,
    when: ({ system }) => system.sheetAtLeastStated,
    source: ofSheet,
  },
  {
    by: 'system',
    name: 'sheetAtMost',
    check: 'sheet-thin-enough',
    ...fact('duct.wall.sheet'),
    what: "the thickness of the duct's sheet, at most",
    unit: 'mm',
    atMost: ({ system }) => system.sheetAtMost,
    when: ({ system }) => system.sheetAtMostStated,
    source: ofSheet,
  },
  {
    by: 'system',
    name: 'overPressure',
    check: 'pressure-tested',
    ...fact('brief.overPressure'),
    atMost: ({ system }) => system.overPressureAtMost,
    when: ({ system }) => system.overPressureStated,
    source: ofPressure,
  },
  {
    by: 'system',
    name: 'underPressure',
    check: 'underpressure-tested',
    ...fact('brief.underPressure'),
    atMost: ({ system }) => system.underPressureAtMost,
    when: ({ system }) => system.underPressureStated,
    source: ofPressure,
  },
  {
    by: 'fixing',
    name: 'fixing',
    check: 'fixing-shape',
    ...fact('duct.shape'),
    what: 'the shape of the duct, for the fixing',
    allowed: ({ fixing }) => fixing.fixingShapeAllowed,
    among: ({ fixing }) => (fixing ? shapesOf(fixing.limits) : []),
    when: isHeld,
    source: ofFixing,
  },
  {
    by: 'fixing',
    name: 'fixingDiameter',
    check: 'fixing-diameter',
    ...fact('duct.diameter'),
    what: 'the diameter of the duct, for the fixing',
    unit: 'mm',
    atMost: ({ fixing }) => fixing.fixingDiameterAtMost,
    when: (at) => isHeldShape(at) && isCircular(at),
    source: ofFixing,
    tolerances: ['duct.measuredTo'],
  },
  {
    by: 'fixing',
    name: 'fixingWidth',
    check: 'fixing-width',
    ...fact('duct.width'),
    what: 'the width of the duct, for the fixing',
    unit: 'mm',
    atMost: ({ fixing }) => fixing.fixingWidthAtMost,
    when: (at) => isHeldShape(at) && !isCircular(at),
    source: ofFixing,
    tolerances: ['duct.measuredTo'],
  },
  {
    by: 'fixing',
    name: 'fixingHeight',
    check: 'fixing-height',
    ...fact('duct.height'),
    what: 'the height of the duct, for the fixing',
    unit: 'mm',
    atMost: ({ fixing }) => fixing.fixingHeightAtMost,
    when: (at) => isHeldShape(at) && !isCircular(at),
    source: ofFixing,
    tolerances: ['duct.measuredTo'],
  },
  {
    by: 'fixing',
    name: 'fixingUnderside',
    check: 'fixing-underside',
    ...fact('duct.underside'),
    what: 'the level underside of the duct, for the fixing',
    unit: 'mm',
    atMost: ({ fixing }) => fixing.fixingUndersideAtMost,
    when: ({ fixing }) => fixing.fixingUndersideStated === true,
    source: ofFixing,
    tolerances: ['duct.measuredTo'],
  },
  {
    by: 'system',
    name: 'fire',
    check: 'fire-side-tested',
    ...fact('brief.fire'),
    allowed: ({ system }) => system.fireSideAllowed,
    among: ({ system }) => system.scope.fire ?? [],
  },
  {
    by: 'detail',
    name: 'skew',
    check: 'skew-within-tested-range',
    ...fact('penetration.skew'),
    unit: 'deg',
    atMost: ({ detail }) => detail.skewAtMost,
    source: ofDetail,
  },
  { name: 'narrowestGap', ...fact('penetration.narrowestGap'), ...GAP },
  { name: 'widestGap', ...fact('penetration.widestGap'), ...GAP },
  {
    by: 'detail',
    name: 'openingWidth',
    check: 'opening-width-tested',
    ...fact('penetration.opening.width'),
    unit: 'mm',
    atMost: ({ detail }) => detail.openingWidthAtMost,
    when: ({ detail }) => detail.openingStated === true,
    source: ofOpening,
    tolerances: ['site'],
  },
  {
    by: 'detail',
    name: 'openingHeight',
    check: 'opening-height-tested',
    ...fact('penetration.opening.height'),
    unit: 'mm',
    atMost: ({ detail }) => detail.openingHeightAtMost,
    when: ({ detail }) => detail.openingStated === true,
    source: ofOpening,
    tolerances: ['site'],
  },
  {
    by: 'detail',
    name: 'edgeDistance',
    check: 'edge-distance-tested',
    ...fact('penetration.edgeDistance'),
    what: 'the distance of the opening from edges',
    unit: 'mm',
    atLeast: ({ detail }) => detail.edgeDistanceAtLeast,
    when: ({ detail }) => detail.edgeDistanceStated === true,
    source: ofDetail,
    tolerances: ['site'],
  },
  {
    by: 'detail',
    name: 'movement',
    check: 'movement-tested',
    ...fact('brief.movement'),
    unit: 'mm',
    atMost: ({ detail }) => detail.movementAtMost,
    when: ({ facts }) => movementGiven(facts) === true,
    source: ofDetail,
  },
  {
    by: 'system',
    name: 'integrity',
    check: 'integrity-as-tested',
    fact: 'system.integrity',
    measured: ({ system }) => system.integrity,
    unit: 'min',
    atLeast: ({ facts }) => integrityAsked(facts),
    untold: mayAskLess,
  },
  {
    by: 'system',
    name: 'insulation',
    check: 'insulation-as-tested',
    fact: 'system.insulation',
    measured: ({ system }) => system.insulation,
    unit: 'min',
    atLeast: ({ facts }) => insulationAsked(facts),
    untold: mayAskLess,
  },
] as const satisfies readonly Sorted[];

export type LineName = (typeof KINDS)[number]['name'];
type Named<At> = readonly (LineKind<At> & { readonly name: LineName })[];

/** In the order in which they are read. */
export const LINE_KINDS: Named<AtPenetration> = KINDS;
export const SYSTEM_KINDS: Named<AtSystem> = KINDS.filter((kind) => kind.by === 'system');
export const FIXING_KINDS: Named<AtFixing> = KINDS.filter((kind) => kind.by === 'fixing');
export const DETAIL_KINDS: Named<AtDetail> = KINDS.filter((kind) => kind.by === 'detail');
