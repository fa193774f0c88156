/** The words by which people know the place that a finding is about. */

import { brief, capital, counted } from '../words/text.js';
import type { Report, ReportFinding, ReportPenetration } from './schema.js';
import { ratingWords, sectionWords } from './words.js';

const NAME_LENGTH = 48;

/** The heading of a place; `lead` is a column of its own. */
export interface PlaceWords {
  readonly lead: string;
  readonly text: string;
}

/** @param penetrations those that the finding concerns, its own first */
export function placeWords(
  report: Report,
  finding: ReportFinding,
  penetrations: readonly ReportPenetration[],
): PlaceWords {
  const [first] = penetrations;
  return finding.subject.type === 'penetration' && first
    ? { lead: `${first.tag}  `, text: penetrationPlace(first) }
    : { lead: '', text: otherPlace(report, finding, penetrations) };
}

function otherPlace(report: Report, { subject }: ReportFinding, penetrations: readonly ReportPenetration[]): string {
  if (subject.type === 'barrier') {
    const barrier = report.barriers.find((b) =>
      subject.elements.some((ref) => ref.globalId === b.globalId && ref.model === b.model),
    );
    const passing = penetrations.length > 0 ? `; ${counted(penetrations.length, 'penetration')}` : '';
    if (barrier) return `${barrierPlace(barrier)}${passing}`;
  }
  if (subject.type === 'model') return subject.elements.length === 0 ? 'The models together' : `Model ${subject.id}`;
  const at = penetrations.length > 0 ? ` at ${penetrations.map((p) => p.tag).join(', ')}` : '';
  return `${capital(subject.type)} ${brief(subject.id, NAME_LENGTH)}${at}`;
}

/** `KX, 600 × 400 mm, through wall W-12, Level 1, rated "-/120/120"`. */
export function penetrationPlace(p: ReportPenetration): string {
  const section = sectionWords(p.duct);
  const size = section === 'section unknown' ? section : `${section} mm`;
  const duct = brief(p.duct.system ?? p.duct.name, NAME_LENGTH) || 'unnamed duct';
  return `${duct}, ${size}, through ${barrierPlace(p.barrier, p.storey)}`;
}

function barrierPlace(
  barrier: Pick<Report['barriers'][number], 'kind' | 'name' | 'storey' | 'rating'>,
  storey = barrier.storey,
): string {
  const name = brief(barrier.name, NAME_LENGTH) || 'without a name';
  return [`${barrier.kind} ${name}`, ...(storey ? [brief(storey.name, NAME_LENGTH)] : []), ratingWords(barrier.rating)]
    .filter((part) => part !== '')
    .join(', ');
}
