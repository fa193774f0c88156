/**
 * findings.junit.xml for pipelines: a suite for each check, a case for each thing that it looked at. The format has no
 * standard; these are the elements and attributes that every reader knows (common practice, no source).
 *
 * What can't be told must not look passed in a pipeline, so it is an error; failed is a failure. Only what does not
 * apply is skipped.
 */
import { fileUnder } from '../collect.js';
import type { Outcome } from '../model.js';
import { oneLine } from '../words/text.js';
import { concessionWords } from './concession-words.js';
import { relate } from './penetration-outcome.js';
import { placeWords } from './place-words.js';
import type { Report, ReportCheck, ReportFinding } from './schema.js';
import { DEMONSTRATION } from './words.js';
import { element, writeXml, type XmlElement } from './xml.js';

/** @param report with all findings listed, those that passed too */
export function writeJunit(report: Report): Uint8Array {
  const byCheck = new Map<string, ReportFinding[]>();
  for (const finding of report.findings) fileUnder(byCheck, finding.check, finding);
  const nameOf = caseNames(report);
  const suites = report.checks.map((check) => suiteOf(check, byCheck.get(check.id) ?? [], nameOf, report.createdAt));
  const root = element(
    'testsuites',
    { name: report.demonstration ? `ratedrun: ${DEMONSTRATION}` : 'ratedrun', ...sums(suites) },
    ...suites.map(({ xml }) => xml),
  );
  return new TextEncoder().encode(writeXml(root));
}

interface Counts {
  readonly tests: number;
  readonly failures: number;
  readonly errors: number;
  readonly skipped: number;
}
interface Suite extends Counts {
  readonly xml: XmlElement;
}

function sums(suites: readonly Counts[]): Record<keyof Counts, string> {
  const sum = (name: keyof Counts) => String(suites.reduce((total, suite) => total + suite[name], 0));
  return { tests: sum('tests'), failures: sum('failures'), errors: sum('errors'), skipped: sum('skipped') };
}

function suiteOf(
  check: ReportCheck,
  findings: readonly ReportFinding[],
  nameOf: (finding: ReportFinding) => string,
  createdAt: string,
): Suite {
  const cases = new Map<string, ReportFinding[]>();
  for (const finding of findings) {
    const name = nameOf(finding);
    fileUnder(cases, name, finding);
  }
  const results = [...cases].map(([name, list]) => ({ name, list, outcome: worst(list) }));
  const count = (...outcomes: readonly Outcome[]) => results.filter((r) => outcomes.includes(r.outcome)).length;
  const counts: Counts = {
    tests: results.length,
    failures: count('failed'),
    errors: count('cantTell', 'untested'),
    skipped: count('inapplicable'),
  };
  const attributes = {
    name: check.title,
    id: check.id,
    ...sums([counts]),
    time: '0',
    timestamp: createdAt.slice(0, 19),
  };
  return {
    ...counts,
    xml: element(
      'testsuite',
      attributes,
      ...results.map(({ name, list, outcome }) =>
        element('testcase', { classname: check.id, name, time: '0' }, ...resultOf(list, outcome)),
      ),
    ),
  };
}

const WORST_FIRST = ['failed', 'cantTell', 'untested', 'passed', 'inapplicable'] as const satisfies readonly Outcome[];

/** A check looks at the sides of an opening one by one; the case is as good as the worst of them. */
const worst = (findings: readonly ReportFinding[]): Outcome =>
  WORST_FIRST.find((outcome) => findings.some((finding) => finding.outcome === outcome)) ?? 'untested';

function resultOf(findings: readonly ReportFinding[], outcome: Outcome): XmlElement[] {
  const told = findings.filter((finding) => finding.outcome === outcome);
  const lines = told.flatMap(({ message, remedy, concession }) => [
    oneLine(message),
    ...(remedy === null ? [] : [`Remedy: ${oneLine(remedy)}`]),
    ...(concession === null ? [] : [concessionWords(concession)]),
  ]);
  const message = lines[0] ?? '';
  switch (outcome) {
    case 'passed':
      return [];
    case 'failed':
      return [element('failure', { type: 'failed', message }, lines.join('\n'))];
    case 'inapplicable':
      return [element('skipped', { message })];
    case 'cantTell':
    case 'untested':
      return [element('error', { type: outcome, message }, lines.join('\n'))];
  }
}

/** The tag and the revision lead; the place tells people where to look. Barriers share names, so their GlobalId follows. */
function caseNames(report: Report): (finding: ReportFinding) => string {
  const concerned = relate(report.penetrations);
  const revision = report.revision === null ? '' : ` rev. ${report.revision}`;
  return (finding) => {
    const penetrations = concerned(finding);
    const tags = finding.subject.type === 'penetration' ? penetrations.map(({ tag }) => tag) : [];
    const lead = tags.length === 0 ? '' : `${tags.join(' and ')}${revision}: `;
    const place = placeWords(report, finding, penetrations).text;
    const id = tags.length > 0 || finding.subject.type === 'model' ? '' : ` (${finding.subject.id})`;
    return oneLine(`${lead}${place}${id}`);
  };
}
