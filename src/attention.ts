/** Which findings people have to look at; for every layer. */
import type { Finding } from './model.js';

type Judged = Pick<Finding, 'outcome' | 'wouldBe'>;

/** Not known, and not for want of proof alone. */
export const isOpen = ({ outcome, wouldBe }: Judged): boolean => outcome === 'cantTell' && wouldBe === null;

/** What is wrong, or may be. */
export const isFailedOrOpen = (one: Judged): boolean => one.outcome === 'failed' || isOpen(one);

/** Listed whatever else is; the others are only counted, unless all are listed. */
export const needsAttention = (one: Judged): boolean => one.outcome === 'untested' || isFailedOrOpen(one);
