/** The list of tags that were ever issued, carried on from report to report: a tag on a wall outlives its duct. */
import type { Issued } from '../find/keys.js';
import type { IssuedTag, Report } from './schema.js';

/** Of a report; one from before there was such a list has issued what it shows. */
export function issuedIn(report: Report | undefined): readonly IssuedTag[] {
  if (!report) return [];
  const listed = new Set(report.issuedTags.map(({ key }) => key));
  const shown = report.penetrations.filter(({ key }) => !listed.has(key));
  return [
    ...report.issuedTags,
    ...shown.map(({ key, tag }) => ({ tag, key, issuedAt: report.createdAt, absentSince: null })),
  ];
}

/**
 * @param present the penetrations of this report, with the tags they have now
 * @param now ISO time of this report
 */
export function carriedOn(issued: readonly IssuedTag[], present: readonly Issued[], now: string): IssuedTag[] {
  const here = new Set(present.map(({ key }) => key));
  const known = new Set(issued.map(({ key }) => key));
  const list = [
    ...issued.map((one) => ({ ...one, absentSince: here.has(one.key) ? null : (one.absentSince ?? now) })),
    ...present
      .filter(({ key }) => !known.has(key))
      .map(({ key, tag }) => ({ tag, key, issuedAt: now, absentSince: null })),
  ];
  return list.sort((a, b) => (a.tag < b.tag ? -1 : a.tag > b.tag ? 1 : 0));
}
