/** What could not be told, gathered under the fact that is missing: one answer often settles many findings. */
import type { RatingState } from '../model.js';
import { missingWords } from '../rules/words.js';
import { brief, capital, counted, listed, oneLine } from '../words/text.js';
import { relate } from './penetration-outcome.js';
import type { Report, ReportBarrier, ReportFinding, ReportPenetration } from './schema.js';

export interface UnknownGroup {
  /** One sentence: what is missing, where, and how much waits for it. */
  readonly what: string;
  /** What to do about it, where all findings say the same. */
  readonly remedy: string | null;
}

interface Gathered {
  readonly lead: Lead;
  readonly findings: Set<ReportFinding>;
  readonly penetrations: Set<ReportPenetration>;
  readonly barriers: Set<ReportBarrier>;
}

/** How a group's sentence begins, and what it counts as the place of the gap in knowledge. */
interface Lead {
  readonly text: string;
  readonly at: 'barriers' | 'penetrations' | 'models';
}

export function unknownGroups(report: Report): UnknownGroup[] {
  const groups = [...gather(report).values()].sort(
    (a, b) => b.penetrations.size - a.penetrations.size || b.findings.size - a.findings.size,
  );
  return [...groups.map((group) => ({ what: sentence(group), remedy: commonRemedy(group) })), ...notRead(report)];
}

function gather(report: Report): Map<string, Gathered> {
  const concerned = relate(report.penetrations);
  const barriers = new Map(report.barriers.map((b) => [`${b.model}/${b.globalId}`, b]));
  const titles = new Map(report.checks.map((check) => [check.id, check.title]));
  const groups = new Map<string, Gathered>();
  for (const finding of report.findings) {
    if (finding.outcome !== 'cantTell' || finding.wouldBe !== null) continue;
    const penetrations = concerned(finding);
    const at = barriersAt(finding, penetrations, barriers);
    const leads = finding.missing.flatMap((fact) => leadsOf(fact, at));
    const title = titles.get(finding.check) ?? finding.check;
    const other: Lead = { text: isWithoutMargin(finding) ? WITHOUT_MARGIN : title, at: 'penetrations' };
    for (const { lead, barriers: these } of leads.length > 0 ? leads : [{ lead: other, barriers: at }]) {
      const group = groups.get(lead.text) ?? {
        lead,
        findings: new Set(),
        penetrations: new Set(),
        barriers: new Set(),
      };
      group.findings.add(finding);
      for (const p of penetrations) group.penetrations.add(p);
      for (const b of these) group.barriers.add(b);
      groups.set(lead.text, group);
    }
  }
  return groups;
}

const WITHOUT_MARGIN = 'Inside the limit, but not by the site tolerance and what was measured to';
const isWithoutMargin = ({ margin, tolerance }: ReportFinding): boolean =>
  margin !== null && margin >= 0 && tolerance !== null;

function barriersAt(
  { subject }: ReportFinding,
  penetrations: readonly ReportPenetration[],
  barriers: ReadonlyMap<string, ReportBarrier>,
): ReportBarrier[] {
  const keys =
    subject.type === 'barrier'
      ? subject.elements.map((e) => `${e.model}/${e.globalId}`)
      : penetrations.map((p) => `${p.barrier.model}/${p.barrier.globalId}`);
  return [...new Set(keys)].map((key) => barriers.get(key)).filter((barrier) => barrier !== undefined);
}

const RATING_LEADS: { readonly [S in RatingState]: string } = {
  unstated: 'Rating missing',
  unreadable: 'Rating unreadable',
  durationOnly: 'Rating states a duration without criteria',
  stated: 'Rating leaves a criterion open',
  notRequired: 'Rating not known',
};

/** A rating can be missing in several ways, each with its own answer, so it is told apart by its state. */
function leadsOf(fact: string, barriers: readonly ReportBarrier[]): { lead: Lead; barriers: ReportBarrier[] }[] {
  if (!/^barrier\.rat(ing|ed)\b/.test(fact)) {
    return [{ lead: { text: factWords(fact), at: holderOf(fact) }, barriers: [...barriers] }];
  }
  if (barriers.length === 0) return [{ lead: { text: RATING_LEADS.unstated, at: 'models' }, barriers: [] }];
  return [...new Set(barriers.map((b) => b.rating.state))].map((state) => ({
    lead: { text: RATING_LEADS[state], at: 'barriers' },
    barriers: barriers.filter((b) => b.rating.state === state),
  }));
}

function holderOf(fact: string): Lead['at'] {
  const holder = fact.split('.')[0];
  if (holder === 'barrier') return 'barriers';
  return holder === 'model' || holder === 'models' ? 'models' : 'penetrations';
}

/** "Material of the duct is not known". */
const factWords = (fact: string): string => `${capital(missingWords([fact]).replace(/^the /, ''))} is not known`;

function sentence({ lead, findings, penetrations, barriers }: Gathered): string {
  const waiting = penetrations.size;
  if (lead.at === 'barriers' && barriers.size > 0) {
    const verb = waiting === 1 ? 'waits' : 'wait';
    const wait = waiting === 0 ? 'no penetration waits' : `${counted(waiting, 'penetration')} ${verb}`;
    return `${lead.text} on ${barrierCount([...barriers])} (${names([...barriers].map(barrierName))}): ${wait}.`;
  }
  if (waiting > 0 && lead.at !== 'models') {
    return `${lead.text}: ${counted(waiting, 'penetration')} (${names([...penetrations].map((p) => p.tag))}).`;
  }
  const messages = [...new Set([...findings].map((finding) => oneLine(finding.message)))];
  const more = messages.length > 1 ? ` (and ${messages.length - 1} more)` : '';
  return `${lead.text}: ${messages[0]}${more}`;
}

/** An unreadable text is shown: whoever knows the project sees at once what was meant. */
function barrierName({ name, rating }: ReportBarrier): string {
  const shown = brief(name, 40) || 'without a name';
  return rating.state === 'unreadable' && rating.text !== null ? `${shown} "${brief(rating.text, 24)}"` : shown;
}

function barrierCount(barriers: readonly ReportBarrier[]): string {
  return listed(
    (['wall', 'floor', 'roof'] as const)
      .map((kind) => ({ kind, count: barriers.filter((b) => b.kind === kind).length }))
      .filter(({ count }) => count > 0)
      .map(({ kind, count }) => counted(count, kind)),
  );
}

function names(all: readonly string[]): string {
  const shown = [...new Set(all)];
  return shown.length <= 3 ? shown.join(', ') : `${shown.slice(0, 3).join(', ')} and ${shown.length - 3} more`;
}

function commonRemedy({ findings }: Gathered): string | null {
  const remedies = new Set([...findings].map((finding) => finding.remedy));
  const [only] = remedies;
  return remedies.size === 1 && only ? oneLine(only) : null;
}

function notRead({ models, summary }: Report): UnknownGroup[] {
  const notes = [
    { count: summary.elementsSkipped, word: 'not read', codes: /^(?!unclassified)/ },
    { count: summary.unclassified, word: 'not classified', codes: /^unclassified/ },
  ];
  return notes
    .filter(({ count }) => count > 0)
    .map(({ count, word, codes }) => {
      const example = models.flatMap((m) => m.problems).find((p) => p.globalId !== null && codes.test(p.code));
      const told = example ? ` ${oneLine(example.message)}` : '';
      return {
        what: `${counted(count, 'element')} ${word}, so not checked.${count === 1 ? told : told && ` First:${told}`}`,
        remedy: null,
      };
    });
}
