/** The words beside a section: each part in the order of the work, and what the drawing does not show. */
import { fileUnder } from '../../../collect.js';
import type { BuiltPart, BuiltScrews, Seam } from '../../../model.js';
import type { ReportPenetration } from '../../../report/schema.js';
import { sectionWords } from '../../../report/words.js';
import { capital, counted, listed, number, oneLine } from '../../../words/text.js';
import { STATUS_WORDS, valueWords } from '../../../words/values.js';
import type { Built } from './built.js';
import { type Cut, UNKNOWN_THICKNESS } from './cut.js';
import { UNSTATED_BEAD } from './sizes.js';

/** That all is built on both faces, or all on one, is said once. */
const FACES = { both: '', one: ', on one face' } as const;
const mm = (value: number | null, what: string): string =>
  value === null ? `of unknown ${what}` : `${number(value)} ${what === 'width' ? 'wide' : 'thick'}`;

/** @param facesOfAll on how many the detail as a whole is built */
export function partWords(part: BuiltPart, facesOfAll: 'both' | 'one' | null, { pair }: Cut): string {
  const faces = part.faces === facesOfAll ? '' : FACES[part.faces];
  switch (part.part) {
    case 'packing':
      return `Packing of ${part.material}, through the barrier`;
    case 'angle': {
      const { leg, thickness, sides, intoBarrier, intoDuct } = part;
      const unseen = sides === 'all' || sides === pair ? '' : ', not in this cut';
      const form = leg === null || thickness === null ? 'of a size not known here' : `${leg} × ${leg} × ${thickness}`;
      const duct = intoDuct ? `; ${screwWords(intoDuct, 'the duct')}` : '; none through the duct';
      return `Angles ${form}, ${sides === 'all' ? 'all sides' : sides}${unseen}${faces}; ${screwWords(intoBarrier, 'the barrier')}${duct}`;
    }
    case 'boardCollar': {
      const { material, width, thickness, intoBarrier, drilledFromEnd } = part;
      const holes = drilledFromEnd ? rangeWords(drilledFromEnd) : '';
      const fixed = intoBarrier ? screwWords(intoBarrier, 'the barrier') : 'what fixes it is not said';
      return `Board collar ${mm(width, 'width')}, ${mm(thickness, 'thickness')}, of ${material}${faces}; ${fixed}${holes === '' ? '' : `; holes ${holes} from ends`}`;
    }
    case 'localBuildUp': {
      const far = part.length === null ? 'of unknown length' : number(part.length);
      return `Local build-up of ${counted(part.layers, 'more layer')}, ${far} along the duct from the face${faces}`;
    }
    case 'sealant':
      return `Sealant ${listed(part.at.map((seam) => SEAM_WORDS[seam]))}, ${beadWords(part)}${faces}`;
  }
}

function rangeWords({ atLeast, atMost }: { readonly atLeast: number | null; readonly atMost: number | null }): string {
  if (atLeast !== null && atMost !== null) return `${atLeast} to ${atMost}`;
  if (atLeast !== null) return `at least ${atLeast}`;
  return atMost === null ? '' : `at most ${atMost}`;
}

const SEAM_WORDS: { readonly [S in Seam]: string } = {
  gap: 'in the gap',
  blanketToBoard: 'between blanket and board',
  boardToBarrier: 'between board and barrier',
  blanketToBarrier: 'between blanket and barrier',
  ductToBarrier: 'between duct and barrier',
};

function beadWords({ depth, width }: Extract<BuiltPart, { part: 'sealant' }>): string {
  if (depth === null && width === null) return 'size not stated';
  return listed([...(depth === null ? [] : [`${depth} deep`]), ...(width === null ? [] : [`${width} wide`])]);
}

function screwWords({ spacing, type, reachesFraming }: BuiltScrews, into: string): string {
  return `into ${into}${reachesFraming ? ', in its framing,' : ''} ${type ?? 'fasteners not named'}, at most ${spacing} apart`;
}

/** Of what goes along the duct. */
export function protectionWords({ treatment }: ReportPenetration): string {
  const { chosen, kind, layers } = treatment;
  const protection = chosen?.protection ?? (kind === 'both' ? null : kind);
  if (protection === 'fireResistingDuct') return 'The duct resists fire by itself';
  const count = (chosen ?? treatment).layers ?? layers;
  const layer = chosen?.layerThickness ?? null;
  const many = count === null ? 'layers not known' : counted(count, 'layer');
  const each = layer === null ? 'of a thickness not known' : `of ${number(layer)}`;
  return `${capital(protection === null ? 'protection' : valueWords(protection))}, ${many} ${each}${ENDS[chosen?.gapDatum ?? 'unknown']}`;
}

const ENDS = { stopsAtFace: ', ends at the faces', passesThrough: ', goes through the barrier', unknown: '' } as const;

/** From left to right, or from below, as they lie in the cut. */
export function barrierWords({ barrier }: ReportPenetration, { bands, isLevel }: Cut): string {
  const construction = barrier.construction === 'unknown' ? 'construction unknown' : valueWords(barrier.construction);
  const [only, ...others] = bands;
  if (!only || others.length === 0) return `${capital(barrier.kind)}: ${construction}`;
  const words = bands.map(({ kind, at, material }) => {
    const what = material === null || material.trim() === '' ? BAND_WORDS[kind] : oneLine(material);
    return `${number(at[1] - at[0])} ${what}`;
  });
  return `${capital(barrier.kind)}, from ${isLevel ? 'the left' : 'below'}: ${words.join(', ')}`;
}

const BAND_WORDS = { leaf: 'leaf', board: 'board', frame: 'frame', lining: 'lining', cavity: 'cavity' } as const;

/** What the drawing does not show, or shows otherwise than it is. */
export function noteTexts(p: ReportPenetration, cut: Cut, built: Built, isShortened: boolean): string[] {
  const { treatment, barrier, opening, skew, duct, dampers } = p;
  const { chosen } = treatment;
  return [
    ...(chosen
      ? [
          `${chosen.title}: ${STATUS_WORDS[chosen.status]}.${chosen.faces === 'both' ? ' Built on both faces.' : ''}`,
          ...openIn(p, cut, built),
        ]
      : [`No tested detail is chosen: what is built here is not known. Protection: ${thereWords(p)}.`]),
    ...(cut.duct ? [] : ['The section of the duct is not known, so it is not drawn.']),
    ...(opening === null && cut.duct ? ['No opening is modelled: the duct is drawn in solid barrier.'] : []),
    ...(opening !== null && !cut.opening ? ['The opening does not lie in this cut.'] : []),
    ...(cut.isThicknessKnown ? [] : [`The thickness of the barrier is not known; drawn ${UNKNOWN_THICKNESS}.`]),
    ...(barrier.buildUpAlong === 'file' && cut.bands.length > 1
      ? ['Layers in the order of the file: nothing tells at which face they begin.']
      : []),
    ...skewTexts(skew, cut),
    ...(duct.wall.outline === 'insulation' ? ['The outline in the model is the outside of the insulation.'] : []),
    ...(isShortened ? [`The duct (${sectionWords(duct)}) is drawn shortened between the break lines.`] : []),
    ...(dampers.length > 0 ? ['Of the damper only the casing is known, not the place of its blade.'] : []),
  ];
}

function thereWords(p: ReportPenetration): string {
  const { kind } = p.treatment;
  if (kind === 'none') return 'none';
  if (kind === 'unknown') return 'not known';
  return kind === 'damper'
    ? 'a damper, as its own tested document says'
    : `${protectionWords(p).toLowerCase()}, not drawn`;
}

function openIn(
  { treatment: { chosen }, faces }: ReportPenetration,
  { duct, gaps, pair }: Cut,
  built: Built,
): string[] {
  if (!chosen || !duct) return [];
  const isLayered = chosen.protection !== 'fireResistingDuct';
  const far = faces.find((face) => face?.shaft === true);
  return [
    ...shortTexts(chosen.parts, gaps, pair, built.base),
    ...(chosen.detail === null ? ['No detail is known to be for this barrier.'] : []),
    ...(isLayered && (chosen.layerThickness === null || chosen.layers === null)
      ? ['How thick the protection is, is not known: it is not drawn.']
      : []),
    ...(chosen.faces === 'one'
      ? [
          `Built on one face${built.isFaceOpen ? '; which one is not settled' : ', the one out of the shaft'}. ${far || built.isFaceOpen ? 'What is on the duct beyond the other face is not part of the detail.' : ''}`.trim(),
        ]
      : []),
    ...(chosen.parts.some((part) => part.part === 'sealant' && part.depth === null && part.width === null)
      ? [`Beads whose size is not stated are drawn ${UNSTATED_BEAD} deep.`]
      : []),
  ];
}

function skewTexts(skew: number, { slope, hidesSkew }: Cut): string[] {
  if (skew === 0) return [];
  const all = `The duct passes ${number(skew)}° off square`;
  if (slope === 0) return [`${all}, which this cut does not show.`];
  return [hidesSkew ? `${all}, only in part in this cut.` : `${all}.`];
}

/** Of frames that end within the gap. @param base how far off the duct they begin */
function shortTexts(parts: readonly BuiltPart[], gaps: Cut['gaps'], pair: Cut['pair'], base: number): string[] {
  const short = parts.flatMap((part) => {
    if (part.part !== 'angle' && part.part !== 'boardCollar') return [];
    const isSeen = part.part === 'boardCollar' || part.sides === 'all' || part.sides === pair;
    const width = part.part === 'angle' ? part.leg : part.width;
    if (!isSeen || width === null) return [];
    const sides = listed(gaps.flatMap((gap) => (gap && base + width <= gap.drawn ? [gap.side] : [])));
    return sides === '' ? [] : [[sides, part.part === 'angle' ? 'the angle' : 'the board collar'] as const];
  });
  const bySides = new Map<string, string[]>();
  for (const [sides, name] of short) fileUnder(bySides, sides, name);
  return [...bySides].map(([sides, all]) => {
    const what = listed(all);
    return `At the ${sides} ${what} ${all.length === 1 ? 'does' : 'do'} not reach the barrier.`;
  });
}
