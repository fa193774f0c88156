/** What is new since the review before. The report says since when a tag is issued, not what else has changed. */
import type { Report } from '../../src/report/schema.js';

/** Ids of penetrations that got their tag in this review; none where the revision has no name or no review came before. */
export function newPenetrations({ revision, createdAt, issuedTags, penetrations }: Report): ReadonlySet<string> {
  if (revision === null || !issuedTags.some(({ issuedAt }) => issuedAt < createdAt)) return new Set();
  const fresh = new Set(issuedTags.filter(({ issuedAt }) => issuedAt === createdAt).map(({ key }) => key));
  return new Set(penetrations.filter(({ key }) => fresh.has(key)).map(({ id }) => id));
}
