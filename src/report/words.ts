/** The words in which a report speaks of its values. Sentences about findings come with the findings. */
import type { CheckResult, Gaps, Minutes, OpeningFacts, Rating } from '../model.js';
import { counted, listed, number, oneLine } from '../words/text.js';
import { STATUS_WORDS } from '../words/values.js';

export const DEMONSTRATION = 'DEMONSTRATION DATA: invented for show; nothing here may be built or approved from it.';

export const ASSUMPTION =
  'ASSUMPTION: what would be said under choices that the project brief does not make; no review, and nothing may be built or approved from it.';

/** For places with room for one sentence; `Report.cautions` has them whole. */
export const CAUTION_IN_BRIEF =
  "A review of models, not a certification: the tested system's own documents, local codes and licensed practitioners decide.";

/** The rating as a reader of drawings expects it, with what is wrong with it. */
export function ratingWords({ state, text }: Rating): string {
  const quoted = text === null ? '' : `"${oneLine(text)}"`;
  switch (state) {
    case 'stated':
      return `rated ${quoted}`;
    case 'durationOnly':
      return `rated ${quoted} without criteria`;
    case 'notRequired':
      return 'no rating required';
    case 'unstated':
      return 'no rating stated';
    case 'unreadable':
      return `rating ${quoted} unreadable`;
  }
}

/** How the text of a rating was understood. */
export function readingWords(rating: Rating): string {
  switch (rating.state) {
    case 'stated':
      return listed(
        (['loadbearing', 'integrity', 'insulation'] as const).map((name) => `${name} ${minutesWords(rating[name])}`),
      );
    case 'durationOnly':
      return `${rating.duration === null ? 'a duration' : `${number(rating.duration)} min`}, for which criteria is not said`;
    case 'notRequired':
      return 'no rating required';
    case 'unstated':
      return 'nothing stated';
    case 'unreadable':
      return 'not readable, so not known';
  }
}

function minutesWords(minutes: Minutes): string {
  if (minutes === null) return 'not known';
  return minutes === 'none' ? 'not asked for' : `${number(minutes)} min`;
}

interface Section {
  readonly shape: 'rectangular' | 'circular' | 'oval' | 'unknown';
  readonly width: number | null;
  readonly height: number | null;
  readonly diameter: number | null;
}

/** `600 × 400`, `Ø 315`, or that it is not known. */
export function sectionWords({ shape, width, height, diameter }: Section): string {
  if (shape === 'circular' && diameter !== null) return `Ø ${number(diameter)}`;
  if (shape !== 'circular' && width !== null && height !== null) {
    return `${number(width)} × ${number(height)}${shape === 'oval' ? ' oval' : ''}`;
  }
  return 'section unknown';
}

/** `2 pipes, 1 cable`. */
export function othersWords(others: readonly { readonly kind: 'pipe' | 'cable' | 'duct' | 'other' }[]): string {
  return (['duct', 'pipe', 'cable', 'other'] as const)
    .map((kind) => ({ kind, count: others.filter((o) => o.kind === kind).length }))
    .filter(({ count }) => count > 0)
    .map(({ kind, count }) => (kind === 'other' ? `${count} other` : counted(count, kind)))
    .join(', ');
}

type Basis = CheckResult['basis'];

/** `common practice, clause 4`. */
export const sourceWords = ({ source, clause }: Pick<Basis, 'source' | 'clause'>): string =>
  [source, clause].filter((part) => part !== null && part !== '').join(', ');

/** `Canada, NBC`; null where it holds whatever code does. */
export const codeWords = ({ jurisdiction, edition }: Pick<Basis, 'jurisdiction' | 'edition'>): string | null =>
  jurisdiction === null || edition === null ? null : `${jurisdiction}, ${edition}`;

/** `common practice, clause 4, unverified (proves nothing)`; of a code with the code in front. */
export function basisWords(basis: Basis): string {
  const code = codeWords(basis);
  return `${code === null ? '' : `${code}: `}${sourceWords(basis)}, ${STATUS_WORDS[basis.status]}`;
}

/** `top 30, bottom 70, left 60, right 40`, `40 all round`, `12.5 to 40 all round`; empty where none is known. */
export function gapWords(gaps: Gaps): string {
  const sides = (['top', 'bottom', 'left', 'right'] as const).flatMap((side) => {
    const gap = gaps[side];
    return gap === null ? [] : [`${side} ${number(gap)}`];
  });
  if (sides.length > 0) return sides.join(', ');
  if (gaps.min === null || gaps.max === null) return '';
  return gaps.min === gaps.max
    ? `${number(gaps.min)} all round`
    : `${number(gaps.min)} to ${number(gaps.max)} all round`;
}

/** `Ø 280`, `770 × 360`, `none modelled`. */
export function openingWords(opening: Pick<OpeningFacts, 'shape' | 'width' | 'height'> | null): string {
  if (!opening) return 'none modelled';
  if (opening.shape === 'circular') return `Ø ${number(opening.width)}`;
  return `${number(opening.width)} × ${number(opening.height)}`;
}
