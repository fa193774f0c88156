/** What a portfolio came to: by project, its revisions in the order of the list. */
import type { JobEnd, JobResult } from './job.js';

export interface PortfolioRow {
  readonly job: string;
  readonly revision: string | null;
  readonly state: 'done' | 'dead';
  /** Of a dead job: why. */
  readonly fault: string | null;
  readonly attempts: number;
  /** It had been done before, from the same input. */
  readonly wasDone: boolean;
  readonly result: JobResult | null;
  /** Against the revision before that was done; null: there is none. */
  readonly trend: Trend | null;
}

export interface Trend {
  readonly failed: number;
  readonly cantTell: number;
  readonly penetrations: number;
}

export interface PortfolioProject {
  readonly project: string;
  readonly rows: readonly PortfolioRow[];
}

export interface Portfolio {
  readonly format: 'ratedrun-portfolio';
  readonly version: 1;
  readonly id: string;
  readonly tool: string;
  readonly createdAt: string;
  /** Of any job: every output is stamped. */
  readonly demonstration: boolean;
  readonly cautions: readonly string[];
  readonly totals: {
    readonly jobs: number;
    readonly done: number;
    readonly dead: number;
    readonly attempts: number;
    readonly failed: number;
    readonly cantTell: number;
  };
  readonly projects: readonly PortfolioProject[];
}

export interface PortfolioInput extends Pick<Portfolio, 'id' | 'tool' | 'createdAt' | 'cautions'> {
  /** In the order of the list. */
  readonly ends: readonly JobEnd[];
}

export function portfolioOf({ ends, ...said }: PortfolioInput): Portfolio {
  const projects = new Map<string, PortfolioRow[]>();
  for (const end of ends) {
    const rows = projects.get(end.job.project) ?? [];
    projects.set(end.job.project, [...rows, rowOf(end, rows)]);
  }
  const rows = [...projects.values()].flat();
  const results = rows.flatMap(({ result }) => result ?? []);
  // What failed in a project is what fails in its latest revision: those before are history.
  const latest = [...projects.values()].flatMap((list) => list.findLast(({ result }) => result)?.result ?? []);
  return {
    format: 'ratedrun-portfolio',
    version: 1,
    ...said,
    demonstration: results.some(({ demonstration }) => demonstration),
    totals: {
      jobs: rows.length,
      done: results.length,
      dead: rows.length - results.length,
      attempts: rows.reduce((sum, { attempts }) => sum + attempts, 0),
      failed: latest.reduce((sum, { outcomes }) => sum + outcomes.failed, 0),
      cantTell: latest.reduce((sum, { outcomes }) => sum + outcomes.cantTell, 0),
    },
    projects: [...projects].map(([project, list]) => ({ project, rows: list })),
  };
}

function rowOf(end: JobEnd, earlier: readonly PortfolioRow[]): PortfolioRow {
  const { job, attempts } = end;
  const said = { job: job.name, revision: job.revision, attempts };
  if ('fault' in end) return { ...said, state: 'dead', fault: end.fault, wasDone: false, result: null, trend: null };
  const { result, wasDone } = end;
  const before = earlier.findLast((row) => row.result)?.result;
  return {
    ...said,
    ...{ state: 'done', fault: null, wasDone, result },
    trend: before
      ? {
          failed: result.outcomes.failed - before.outcomes.failed,
          cantTell: result.outcomes.cantTell - before.outcomes.cantTell,
          penetrations: result.penetrations - before.penetrations,
        }
      : null,
  };
}
