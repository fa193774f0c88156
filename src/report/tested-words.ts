/** How tested details are told in papers: what is chosen, what would fit, what comes nearest, and the scope line by line. */
import type { ScopeLine, TestedDetail } from '../model.js';
import { listed, number } from '../words/text.js';
import { limitWords, STATUS_WORDS, valueWords } from '../words/values.js';
import type { ReportPenetration } from './schema.js';

type Treatment = ReportPenetration['treatment'];

const BY = { brief: 'settled by the project brief', review: 'the best of what the brief allows' } as const;
const OUTCOME = { met: 'met', missed: 'missed', unknown: "can't tell" } as const;

export function chosenWords({ chosen }: Treatment): string {
  if (!chosen) return 'No tested system is held against this penetration.';
  return `Judged by ${detailWords(chosen)}; ${BY[chosen.by]}.`;
}

/** Where the limits of the chosen document stand that name no place of their own. */
export const ownSourceWords = ({ chosen }: Treatment): string =>
  chosen ? `Where nothing else is said, limits stand in: ${chosen.source}` : '';

/** Title, status, material and what leaves least. */
export function detailWords({ title, status, material, tightest }: TestedDetail): string {
  const figures = [
    STATUS_WORDS[status],
    ...(material === null ? [] : [`${number(material)} kg on a metre of duct`]),
    ...(tightest ? [`tightest: ${tightWords(tightest)}`] : []),
  ];
  return `${title} (${figures.join('; ')})`;
}

const tightWords = ({ what, margin, unit }: ScopeLine): string =>
  `${what}, ${margin! < 0 ? 'missed by' : 'inside by'} ${valueWords(Math.abs(margin!), unit ?? undefined)}`;

/** `the width of the duct: 3700 mm, at most 3600 mm, 100 mm too much` */
export function missWords({ what, measured, limit, margin, unit }: ScopeLine): string {
  const given = measured === null ? 'not known' : valueWords(measured, unit ?? undefined);
  const asked = limit === null ? 'no limit is known' : limitWords(limit, unit ?? undefined);
  const off = margin === null ? '' : `, missed by ${valueWords(Math.abs(margin), unit ?? undefined)}`;
  return `${what}: ${given}, tested ${asked}${off}`;
}

/** A sentence for each of what comes nearest, with all that it misses and all that is not known. */
export const nearestSentences = ({ nearest }: Treatment): string[] =>
  nearest.map(({ title, misses, unknown }) => {
    const open = unknown.length === 0 ? [] : [`not known: ${listed([...new Set(unknown.map(({ what }) => what))])}`];
    return `${title}. Misses: ${misses.length === 0 ? 'nothing that is known' : misses.map(missWords).join('; ')}${open.length > 0 ? `. ${open[0]!.replace(/^n/, 'N')}` : ''}.`;
  });

export const SCOPE_HEADINGS = ['What', 'Here', 'From', 'Tested', 'Margin', 'Is', 'Where it stands'] as const;

/** A row for each line under {@link SCOPE_HEADINGS}. */
export const scopeRow = ({ what, measured, from, limit, margin, unit, outcome, source }: ScopeLine): string[] => [
  what,
  measured === null ? 'not known' : valueWords(measured, unit ?? undefined),
  from,
  limit === null ? 'not known' : limitWords(limit, unit ?? undefined),
  margin === null ? '' : valueWords(margin, unit ?? undefined),
  OUTCOME[outcome],
  source,
];
