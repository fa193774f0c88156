/** Which penetrations are built by a card, and why others are not. */
import { compareNumbers, compareTexts } from '../../collect.js';
import { valueWords } from '../../words/values.js';
import type { Report, ReportPenetration } from '../schema.js';

export interface CardList {
  /** By storey from the lowest, then by tag; those of no storey last. */
  readonly cards: readonly ReportPenetration[];
  readonly without: readonly { readonly penetration: ReportPenetration; readonly because: string }[];
}

export function cardList({ penetrations }: Pick<Report, 'penetrations'>): CardList {
  const inOrder = byStoreyAndTag(penetrations);
  const reasons = inOrder.map((penetration) => ({ penetration, because: reasonAgainst(penetration) }));
  return {
    cards: reasons.filter(({ because }) => because === null).map(({ penetration }) => penetration),
    without: reasons.flatMap(({ penetration, because }) => (because === null ? [] : [{ penetration, because }])),
  };
}

export const byStoreyAndTag = (penetrations: readonly ReportPenetration[]): ReportPenetration[] =>
  [...penetrations].sort(
    (a, b) =>
      compareNumbers(a.storey?.elevation ?? Infinity, b.storey?.elevation ?? Infinity) ||
      compareTexts(a.storey?.globalId ?? '', b.storey?.globalId ?? '') ||
      compareTexts(a.tag, b.tag) ||
      compareTexts(a.id, b.id),
  );

/** A rating that can't be read may be one: its card says that it is not ready. */
function reasonAgainst({ crossing, barrier, required, treatment, dampers }: ReportPenetration): string | null {
  if (crossing !== 'through') return `the duct does not pass right through (${valueWords(crossing)})`;
  if (barrier.rating.state === 'notRequired') return 'no rating is required of the barrier';
  if (barrier.rating.state === 'unstated') return 'no rating of the barrier is stated: settle that first';
  const isAsked = required.integrity !== 0 || required.insulation !== 0;
  const isThere = treatment.chosen !== null || dampers.length > 0;
  return isAsked || isThere ? null : 'nothing is asked here';
}
