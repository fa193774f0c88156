/** How concessions are told, wherever the finding is shown. */
import type { Concession } from '../model.js';
import { counted, listed, oneLine } from '../words/text.js';
import type { ListedConcession, Report, ReportFinding } from './schema.js';

type Told = Concession | ListedConcession;

const STATE_WORDS: { readonly [S in ListedConcession['state']]: string } = {
  inForce: 'Concession',
  lapsed: 'LAPSED concession',
  stale: 'Stale concession',
  refused: 'Refused concession',
};

/** `Concession by A. Person (building surveyor), BS-14, 2026-03-02, until 2026-12-31: filled and inspected.` */
export function concessionWords({ state, because, grantedBy, role, reference, date, expires, reason }: Told): string {
  const why = because === null ? '' : ` (${oneLine(because)})`;
  const until = expires === null ? '' : `, until ${expires}`;
  const by = `${oneLine(grantedBy)} (${oneLine(role)}), ${oneLine(reference)}, ${date}${until}`;
  return `${STATE_WORDS[state]}${why} by ${by}: ${oneLine(reason)}`;
}

/** `3 concessions: 1 in force, 2 lapsed. They change no outcome.`; empty where there are none. */
export function concessionsInBrief({ concessions }: Pick<Report, 'concessions'>): string {
  if (concessions.length === 0) return '';
  const counts = (['inForce', 'lapsed', 'stale', 'refused'] as const).flatMap((state) => {
    const count = concessions.filter((one) => one.state === state).length;
    return count === 0 ? [] : [`${count} ${state === 'inForce' ? 'in force' : state}`];
  });
  return `${counted(concessions.length, 'concession')}: ${listed(counts)}. No outcome and no count is changed by them.`;
}

/** An entry for the brief with all that the report knows; what only people know is left empty, and then does not load. */
export function newConcession({
  key,
  message,
  measured,
  limit,
}: Pick<ReportFinding, 'key' | 'message' | 'measured' | 'limit'>): string {
  const bounds = limit && Object.entries(limit).map(([name, value]) => `${name}: ${JSON.stringify(value)}`);
  return [
    `    # ${oneLine(message)}`,
    `    - key: "${key}"`,
    '      reason: # why what is found may stay',
    '      grantedBy: # the person who granted it',
    '      role: # what that person is',
    "      reference: # the authority's own",
    '      date: # when it was granted, e.g. 2026-03-02',
    '      # expires: the last day on which it holds; left out: none',
    `      measured: ${JSON.stringify(measured)}`,
    `      limit: ${bounds === null ? 'null' : `{ ${bounds.join(', ')} }`}`,
    '',
  ].join('\n');
}
