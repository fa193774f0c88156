/** Dates of entries in zip archives, so that the same input gives the same bytes. */

/**
 * Zip stores a local time without a zone: the day alone, at noon, is the same in every zone and never skipped by
 * summer time. The zip writer takes the years 1980 to 2099.
 */
export function zipTime(createdAt: string): Date {
  const day = new Date(createdAt);
  const year = Math.min(Math.max(day.getUTCFullYear(), 1980), 2099);
  return new Date(year, day.getUTCMonth(), day.getUTCDate(), 12);
}
