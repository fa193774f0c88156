/** A comparison as plain text, to be read in a meeting: what is new and worse first. */

import { DEMONSTRATION } from '../report/words.js';
import { changeWords, FINDING_HEADINGS, PENETRATION_HEADINGS, possibleWords } from '../words/comparison.js';
import { counted, number, oneLine, wrap } from '../words/text.js';
import { OUTCOME_WORDS } from '../words/values.js';
import type { ComparedFinding, ComparedPenetration, Comparison } from './schema.js';

const WIDTH = 96;

export function writeComparison(comparison: Comparison): string {
  const headings = <H extends string>(of: { readonly [status in H]: string }) => Object.entries(of) as [H, string][];
  const sections = [
    headLines(comparison),
    ...headings(FINDING_HEADINGS).map(([status, heading]) =>
      section(heading, comparison.findings.filter((finding) => finding.status === status).map(findingLines)),
    ),
    ...headings(PENETRATION_HEADINGS).map(([status, heading]) =>
      section(heading, comparison.penetrations.filter((p) => p.status === status).map(penetrationLines)),
    ),
    matchedElsewhere(comparison),
  ].filter((lines) => lines.length > 0);
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

const section = (heading: string, items: readonly (readonly string[])[]): string[] =>
  items.length === 0 ? [] : [`${heading} (${items.length})`, ...items.flat()];

function headLines(comparison: Comparison): string[] {
  const { before, after, summary, notes } = comparison;
  const { penetrations: at, inferred, findings } = summary;
  const total = at.new + at.changed + at.moved + at.unchanged;
  const name = ({ revision, createdAt }: Comparison['before']) =>
    [revision === null ? 'the report' : `revision ${oneLine(revision)}`, `of ${createdAt.slice(0, 10)}`].join(' ');
  const known = inferred === 0 ? '' : ` ${inferred} known again by place, since GlobalIds changed.`;
  return [
    ...(before.demonstration || after.demonstration ? wrap(DEMONSTRATION, WIDTH) : []),
    ...wrap(`From ${name(before)} to ${name(after)}.`, WIDTH),
    ...wrap(
      `${counted(total, 'penetration')}: ${at.new} new, ${at.changed} changed, ${at.moved} moved, ${at.unchanged} unchanged; ${at.absent} absent.${known}`,
      WIDTH,
    ),
    ...wrap(
      `Findings: ${findings.new} new, ${findings.worse} worse, ${findings.changed} changed, ${findings.better} better, ${findings.unchanged} unchanged; ${findings.nowPasses} now pass, ${findings.noLongerListed} no longer listed, ${findings.absent} gone with their places.`,
      WIDTH,
    ),
    ...(comparison.penetrations.some(({ tagNow }) => tagNow !== null)
      ? wrap(
          'The later report gave other tags; check its models with --previous to keep those that were issued.',
          WIDTH,
        )
      : []),
    ...notes.flatMap((note) => wrap(oneLine(note), WIDTH)),
  ];
}

function findingLines({ status, title, tags, place, inferred, before, after, possible }: ComparedFinding): string[] {
  const lead = tags.length === 0 ? '  ' : `  ${tags.slice(0, 3).join(', ')}  `;
  const mark = inferred ? ' (known again by place)' : '';
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
  return [
    ...wrap(`${place}${mark}`, WIDTH, lead, '      '),
    ...said.flatMap((text, i) =>
      text ? wrap(`${i === 0 ? `${title}: ` : ''}${oneLine(text)}`, WIDTH, '    ', '      ') : [],
    ),
  ];
}

function penetrationLines(p: ComparedPenetration): string[] {
  const { tag, tagNow, place, inferred, moved, changes } = p;
  const what = [
    ...(moved === null ? [] : [`moved by ${number(moved)} mm`]),
    ...changes.map(changeWords),
    ...(inferred ? ['known again by place'] : []),
    ...(tagNow === null ? [] : [`tagged ${tagNow} in the later report`]),
  ];
  return [
    ...wrap(place, WIDTH, `  ${tag}  `, '      '),
    ...(what.length === 0 ? [] : wrap(`${what.join('; ')}.`, WIDTH, '    ', '      ')),
  ];
}

/** The rest of what was matched by place: a guess, however good, is shown, so that somebody can object. */
function matchedElsewhere({ penetrations }: Comparison): string[] {
  const quiet = penetrations.filter((p) => p.inferred && p.status === 'unchanged');
  if (quiet.length === 0) return [];
  const tags = quiet.map(({ tag, tagNow }) => (tagNow === null ? tag : `${tag} (now ${tagNow})`));
  return [`Unchanged, known again by place (${quiet.length})`, ...wrap(tags.join(', '), WIDTH, '  ')];
}
