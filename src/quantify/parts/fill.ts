/** Packing in the gap and beads at the faces, at one penetration. */
import { partsOf } from '../../rules/detail-facts.js';
import { valueAt } from '../../rules/size-value.js';
import { type Across, grownAcross, perimeter } from '../../supports/masses.js';
import { number } from '../../words/text.js';
import { type Counted, countedTogether, roundedTo } from '../draft.js';
import { beadVolume, filletVolume, fillVolume, packingDepth } from '../formulas/fill.js';
import type { FormulaName } from '../formulas/words.js';
import { packingOf, sealantOf } from '../materials.js';
import { type At, beyondTable, drafted, facesOf, missing, type PartOf, sourceOf } from './at.js';

type Seam = PartOf<'sealant'>['at'][number];

const NO_OPENING = 'the models have no opening here, so nobody can tell how much there is to fill';

export function packing(at: At, part: PartOf<'packing'>): Counted {
  const { penetration, freeArea } = at;
  const what = `packing of ${part.material}, through the barrier`;
  if (freeArea === undefined) return missing(at, 'packing', what, NO_OPENING);
  const { thickness } = penetration.barrier;
  if (thickness === null) return missing(at, 'packing', what, 'the thickness of the barrier could not be measured');
  const seals = partsOf(at.detail, 'sealant').filter((one) => one.at.includes('gap'));
  const depths = seals.map((one) => (one.depth === undefined ? undefined : valueAt(one.depth, at.size)));
  // A seal whose depth nobody knows takes nothing off: rather too much packing than too little.
  const sealDepth = Math.max(0, ...depths.map((depth) => depth ?? 0));
  const depth = packingDepth(thickness, facesOf(at, 'both'), sealDepth);
  return drafted(at, {
    ...nothingCut(fillVolume(freeArea, depth)),
    material: packingOf(at.system, part.material),
    what,
    formula: 'packing',
    source: sourceOf(at, part),
  });
}

export function sealant(at: At, part: PartOf<'sealant'>): Counted {
  return countedTogether(part.at.map((seam) => (seam === 'gap' ? gapSeal(at, part) : bead(at, part, seam))));
}

function gapSeal(at: At, part: PartOf<'sealant'>): Counted {
  const what = 'seal of the gap';
  if (at.freeArea === undefined) return missing(at, 'sealant', what, NO_OPENING);
  if (part.depth === undefined)
    return missing(at, 'sealant', what, `${at.system.name} does not say how deep the seal is`);
  const depth = valueAt(part.depth, at.size);
  if (depth === undefined) return missing(at, 'sealant', what, beyondTable(at));
  const faces = facesOf(at, 'both');
  return drafted(at, {
    ...nothingCut(faces * fillVolume(at.freeArea, depth), faces),
    lengthM: roundedTo((faces * perimeter(at.framed)) / 1000, 3),
    material: sealantOf(at.system),
    what: `${what}, ${number(depth)} mm deep, ${facesWords(faces)}`,
    formula: 'seal',
    source: sourceOf(at, part),
  });
}

function bead(at: At, part: PartOf<'sealant'>, seam: Exclude<Seam, 'gap'>): Counted {
  const what = SEAM_WORDS[seam];
  const along = outlineOf(at, seam);
  if (along === undefined) return missing(at, 'sealant', what, beyondTable(at));
  const faces = facesOf(at, 'both');
  const length = faces * perimeter(along);
  const size = sectionOf(at, part);
  if (size === undefined) return missing(at, 'sealant', what, beyondTable(at));
  const volume = size.width === undefined ? filletVolume(length, size.leg) : beadVolume(length, size.width, size.leg);
  const formula: FormulaName = size.width === undefined ? 'fillet' : 'bead';
  const words =
    size.width === undefined ? `fillet of ${number(size.leg)}` : `${number(size.width)} x ${number(size.leg)}`;
  return drafted(at, {
    ...nothingCut(volume, faces),
    lengthM: roundedTo(length / 1000, 3),
    material: sealantOf(at.system),
    what: `${what}, ${words} mm, ${facesWords(faces)}`,
    formula,
    source: sourceOf(at, part),
  });
}

/** Without a width it is a fillet: as deep as the document says, else as the project takes it. Undefined: beyond a table. */
function sectionOf({ size, filletLeg }: At, { width, depth }: PartOf<'sealant'>) {
  const [wide, deep] = [width, depth].map((value) => (value === undefined ? null : valueAt(value, size)));
  if (wide === undefined || deep === undefined) return undefined;
  return { width: wide ?? undefined, leg: deep ?? wide ?? filletLeg };
}

const SEAM_WORDS: { readonly [S in Exclude<Seam, 'gap'>]: string } = {
  blanketToBoard: 'bead between the blanket and the board collar',
  boardToBarrier: 'bead between the board collar and the barrier',
  blanketToBarrier: 'bead between the blanket and the barrier',
  ductToBarrier: 'bead between the duct and the barrier',
};

/** Along which outline a bead runs; undefined: a table has no row for it. */
function outlineOf(at: At, seam: Exclude<Seam, 'gap'>): Across | undefined {
  if (seam === 'ductToBarrier') return at.framed;
  if (seam === 'boardToBarrier') {
    const collars = partsOf(at.detail, 'boardCollar').map((one) => valueAt(one.width, at.size));
    const widths = collars.filter((width): width is number => width !== undefined);
    return widths.length < Math.max(1, collars.length) ? undefined : squareRound(at.framed, Math.max(...widths));
  }
  const builtUp = partsOf(at.detail, 'localBuildUp').map((one) => one.layers);
  const thick = (at.system.layer?.thickness ?? 0) * (at.layers + Math.max(0, ...builtUp));
  return grownAcross(at.duct, thick);
}

/** A collar is square outside, round a round duct too. */
const squareRound = (across: Across, by: number): Across => {
  const [width, height] =
    across.shape === 'circular' ? [across.diameter, across.diameter] : [across.width, across.height];
  return { shape: 'rectangular', width: width + 2 * by, height: height + 2 * by };
};

export const facesWords = (faces: 1 | 2): string => (faces === 2 ? 'on both faces' : 'on one face');

const nothingCut = (volume: number, pieces = 1) => ({
  ...{ pieces, length: null, width: null, lengthM: null, areaM2: null, massKg: null },
  volumeL: roundedTo(volume, 3),
});
