/** A comparison in words, in the order in which a meeting wants it: what is new and worse first. Written as text or HTML. */
import { changeWords, FINDING_HEADINGS, PENETRATION_HEADINGS, possibleWords } from '../words/comparison.js';
import { counted, number, oneLine } from '../words/text.js';
import { OUTCOME_WORDS } from '../words/values.js';
import type { ComparedFinding, ComparedPenetration, Comparison } from './schema.js';

export interface ComparisonItem {
  /** Tags that lead it; may be empty. */
  readonly lead: string;
  readonly place: string;
  readonly said: readonly string[];
}

export interface ComparisonSection {
  readonly heading: string;
  readonly items: readonly ComparisonItem[];
}

/** Sentences on the whole: which reports, how many of each, what else differs. */
export function headSentences({ before, after, summary, notes, penetrations: all }: Comparison): string[] {
  const { penetrations: at, inferred, findings } = summary;
  const total = at.new + at.changed + at.moved + at.unchanged;
  const name = ({ revision, createdAt }: Comparison['before']) =>
    [revision === null ? 'the report' : `revision ${oneLine(revision)}`, `of ${createdAt.slice(0, 10)}`].join(' ');
  const known = inferred === 0 ? '' : ` ${inferred} known again by place, since GlobalIds changed.`;
  return [
    `From ${name(before)} to ${name(after)}.`,
    `${counted(total, 'penetration')}: ${at.new} new, ${at.changed} changed, ${at.moved} moved, ${at.unchanged} unchanged; ${at.absent} absent.${known}`,
    `Findings: ${findings.new} new, ${findings.worse} worse, ${findings.changed} changed, ${findings.better} better, ${findings.unchanged} unchanged; ${findings.nowPasses} now pass, ${findings.noLongerListed} no longer listed, ${findings.absent} gone with their places.`,
    ...(all.some(({ tagNow }) => tagNow !== null)
      ? ['The later report gave other tags; check its models with --previous to keep those that were issued.']
      : []),
    ...notes.map(oneLine),
  ];
}

/** Without what stayed as it was. */
export function comparisonSections({ findings, penetrations }: Comparison): ComparisonSection[] {
  const headings = <H extends string>(of: { readonly [status in H]: string }) => Object.entries(of) as [H, string][];
  return [
    ...headings(FINDING_HEADINGS).map(([status, heading]) => ({
      heading,
      items: findings.filter((finding) => finding.status === status).map(findingItem),
    })),
    ...headings(PENETRATION_HEADINGS).map(([status, heading]) => ({
      heading,
      items: penetrations.filter((p) => p.status === status).map(penetrationItem),
    })),
  ].filter(({ items }) => items.length > 0);
}

/** Tags of the rest of what was matched by place: a guess, however good, is shown, so that somebody can object. */
export const quietlyMatched = ({ penetrations }: Comparison): string[] =>
  penetrations
    .filter((p) => p.inferred && p.status === 'unchanged')
    .map(({ tag, tagNow }) => (tagNow === null ? tag : `${tag} (now ${tagNow})`));

function findingItem({ status, title, tags, place, inferred, before, after, possible }: ComparedFinding) {
  const was = before && `before: ${OUTCOME_WORDS[before.outcome].toLowerCase()}. ${oneLine(before.message)}`;
  const said = {
    new: [after?.message],
    worse: [after?.message, was],
    changed: [after?.message, was],
    better: [after?.message, was],
    nowPasses: [was],
    noLongerListed: [`Now: ${possibleWords(possible)}.`, was],
    absent: [was],
    unchanged: [],
  }[status];
  return {
    lead: tags.slice(0, 3).join(', '),
    place: `${place}${inferred ? ' (known again by place)' : ''}`,
    said: said.flatMap((text, i) => (text ? [`${i === 0 ? `${title}: ` : ''}${oneLine(text)}`] : [])),
  };
}

function penetrationItem({ tag, tagNow, place, inferred, moved, changes }: ComparedPenetration): ComparisonItem {
  const what = [
    ...(moved === null ? [] : [`moved by ${number(moved)} mm`]),
    ...changes.map(changeWords),
    ...(inferred ? ['known again by place'] : []),
    ...(tagNow === null ? [] : [`tagged ${tagNow} in the later report`]),
  ];
  return { lead: tag, place, said: what.length === 0 ? [] : [`${what.join('; ')}.`] };
}
