import { counted } from '../words/text.js';
import type { Report } from './schema.js';

/** Said where remedies are read, so that a place without one is not taken for one that nothing mends; empty where all were solved. */
export const unsolvedWords = ({ summary: { unsolvedPlaces } }: Pick<Report, 'summary'>): string =>
  unsolvedPlaces
    ? `No change was worked out for ${counted(unsolvedPlaces, 'more place')} where one may mend what failed: only the worst are solved.`
    : '';
