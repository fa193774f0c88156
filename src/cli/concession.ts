/** `ratedrun concession`: entries for the brief, ready to fill in, with the numbers of a report. */
import { isFailedOrOpen } from '../attention.js';
import { newConcession } from '../report/concession-words.js';
import type { Report, ReportFinding } from '../report/schema.js';
import { perhaps } from '../rules/closest.js';
import { UsageError } from './io.js';
import { readReportIn } from './read-report.js';
import type { Streams } from './streams.js';

/** @param names keys of findings, or their ids in this report */
export async function concession(folder: string, names: readonly string[], io: Streams): Promise<number> {
  const report = await readReportIn(folder);
  const entries = names.map((name) => newConcession(findingCalled(report, name)));
  io.out.write(`choices:\n  concessions:\n${entries.join('')}`);
  return 0;
}

/** @throws UsageError where there is none, or nothing to concede */
function findingCalled({ findings }: Report, name: string): ReportFinding {
  const found = findings.filter(({ key, id }) => key === name || id === name);
  const [only, ...others] = found;
  if (others.length > 0)
    throw new UsageError(`${found.length} findings have the key ${name}, so none of them can be conceded.`);
  if (!only) {
    const known = findings.flatMap(({ key, id }) => [key, id]);
    throw new UsageError(
      `the report lists no finding "${name}"${perhaps(name, known)}; report.html shows the key of each.`,
    );
  }
  if (isFailedOrOpen(only)) return only;
  throw new UsageError(`${name} has not failed, so there is nothing to concede.`);
}
