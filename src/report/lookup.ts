/** What the pages of a report look things up in. */
import { findingsByPenetration } from './penetration-outcome.js';
import type { Report, ReportCheck, ReportFinding, ReportPenetration } from './schema.js';

export interface Lookup {
  readonly penetrations: ReadonlyMap<string, ReportPenetration>;
  /** What speaks about each penetration, by its id. */
  readonly findings: ReadonlyMap<string, readonly ReportFinding[]>;
  readonly checks: ReadonlyMap<string, ReportCheck>;
  /** Names of files by the ids of models. */
  readonly files: ReadonlyMap<string, string>;
  readonly revision: string | null;
}

export const lookupOf = (report: Report, revision: string | null = report.revision): Lookup => ({
  penetrations: new Map(report.penetrations.map((p) => [p.id, p])),
  findings: findingsByPenetration(report),
  checks: new Map(report.checks.map((check) => [check.id, check])),
  files: new Map(report.models.map((m) => [m.id, m.file])),
  revision,
});
