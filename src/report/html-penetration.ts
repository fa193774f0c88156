/** A page of report.html: one failed penetration, its elevation, the facts in numbered order, and the section with what is built. */
import { isFailedOrOpen } from '../attention.js';
import { drawElevation } from '../draw/paper/elevation.js';
import { drawSection } from '../draw/paper/section.js';
import type { ElementRef } from '../model.js';
import { number } from '../words/text.js';
import { limitWords, toleranceWords, valueWords } from '../words/values.js';
import { commentWords, saidOf } from './comments.js';
import { concessionWords } from './concession-words.js';
import { damperSentences } from './damper-words.js';
import { FACE_HEADINGS, faceRows } from './face-words.js';
import { outcomeMarkup } from './html-front.js';
import { list, paragraph, sentence, table, tag, text } from './html-markup.js';
import type { Lookup } from './lookup.js';
import { penetrationPlace } from './place-words.js';
import type { ReportFinding, ReportPenetration } from './schema.js';
import { chosenWords, detailWords, nearestSentences } from './tested-words.js';
import { basisWords, gapWords, openingWords } from './words.js';

export function penetrationPage(p: ReportPenetration, index: number, lookup: Lookup): string {
  const findings = (lookup.findings.get(p.id) ?? []).filter(isFailedOrOpen);
  const revision = lookup.revision === null ? '' : ` ${text(lookup.revision)}`;
  return [
    tag('h2', {}, text(p.tag), revision, ' ', outcomeMarkup(p.outcome)),
    paragraph(penetrationPlace(p)),
    tag(
      'figure',
      {},
      drawElevation({
        penetration: p,
        findings,
        others: lookup.penetrations,
        id: `p${index}`,
        revision: lookup.revision,
      }),
      tag('figcaption', {}, sentence(caption(p))),
    ),
    table(
      'facts',
      ['Finding', '1 Measured', '2 Allowed', '3 Basis', '4 Remedy'],
      findings.map((finding) => findingRow(finding, lookup)),
    ),
    tag('h3', {}, '5 Neighbours'),
    neighbours(p, lookup),
    tag('h3', {}, '6 Dampers'),
    dampers(p),
    tag('h3', {}, '7 Room at the faces'),
    faces(p),
    tag('h3', {}, '8 Tested details'),
    tag(
      'figure',
      {},
      drawSection({ penetration: p, id: `s${index}`, revision: lookup.revision }),
      tag('figcaption', {}, sentence(SECTION_CAPTION)),
    ),
    testedDetails(p),
    tag('h3', {}, '9 Elements'),
    elements(p, lookup),
  ].join('\n');
}

const SECTION_CAPTION =
  'Section: figures for the work in its order, letters for what is there. To scale when printed on A4 at 100 %.';

function caption({ gaps, opening, skew, outlines, treatment }: ReportPenetration): string {
  const measured = gapWords(gaps);
  return [
    `Opening ${openingWords(opening)}${measured === '' ? '' : `; gaps ${measured}`} (mm).`,
    ...(skew > 0
      ? [
          `The duct passes ${number(skew)}° off square: outlines at the middle of the barrier, gaps the least over its thickness.`,
        ]
      : []),
    ...(outlines.duct.length === 0 ? ['The section of the duct is not known, so it is not drawn.'] : []),
    ...(treatment.chosen ? ['Dashed: the outer edges of what is built round the duct.'] : []),
    'To scale when printed on A4 at 100 %.',
  ].join(' ');
}

function findingRow(finding: ReportFinding, lookup: Lookup): string[] {
  const { key, outcome, message, measured, limit, tolerance, check, remedy, side, concession } = finding;
  const known = lookup.checks.get(check);
  const unit = known?.unit ?? undefined;
  const granted = concession ? [paragraph(concessionWords(concession), 'concession')] : [];
  const comments = saidOf(finding).map((one) => paragraph(commentWords(one), 'comment'));
  const needed = tolerance ? toleranceWords(tolerance) : '';
  return [
    [outcomeMarkup(outcome), paragraph(message), ...granted, ...comments, keyMarkup(key)].join(''),
    measured === null
      ? 'not known'
      : sentence(`${side === null ? '' : `${valueWords(side)} `}${valueWords(measured, unit)}`),
    limit === null ? '' : sentence(`${limitWords(limit, unit)}${needed === '' ? '' : `; ${needed}`}`),
    known ? sentence(basisWords(known.basis)) : '',
    remedy === null ? '' : sentence(remedy),
  ];
}

function neighbours(p: ReportPenetration, { penetrations }: Lookup): string {
  const near = p.neighbours.map(({ penetration, distance }) => {
    const other = penetrations.get(penetration);
    const place = other ? `: ${penetrationPlace(other)}` : '';
    return `${text(other?.tag ?? penetration)} ${sentence(`at ${number(distance)} mm${place}`)}`;
  });
  const inOpening = p.others.map(
    ({ kind, globalId }) => `${sentence(`In the same opening: ${kind}`)} ${globalIdMarkup(globalId)}`,
  );
  const all = [...near, ...inOpening];
  return all.length === 0 ? paragraph('None near enough to matter.') : list('ul', all);
}

function dampers(p: ReportPenetration): string {
  const told = damperSentences(p);
  return told.length === 0 ? paragraph('None is modelled here.') : list('ul', told.map(sentence));
}

function faces(p: ReportPenetration): string {
  const rows = faceRows(p).map((row) => row.map(text));
  return rows.length === 0 ? paragraph('Not measured here.') : table('faces', FACE_HEADINGS, rows);
}

function testedDetails({ treatment }: ReportPenetration): string {
  const { chosen, feasible } = treatment;
  const nearest = nearestSentences(treatment);
  return [
    ...(chosen ? [paragraph(chosenWords(treatment))] : []),
    ...(feasible.length > 0 ? [paragraph('These fit, the most margin first:')] : []),
    list('ol', feasible.map(detailWords).map(sentence)),
    ...(nearest.length > 0 ? [paragraph('No tested detail that may be used fits. These come nearest:')] : []),
    list('ol', nearest.map(sentence)),
    ...(!chosen && feasible.length === 0 && nearest.length === 0 ? [paragraph('Nothing is asked of it here.')] : []),
  ].join('\n');
}

/** What a concession names a finding by. */
export const keyMarkup = (key: string): string => tag('p', { class: 'mono' }, 'Key ', text(key));

const globalIdMarkup = (id: string): string => tag('span', { class: 'mono' }, text(id));

function elements(p: ReportPenetration, { files }: Lookup): string {
  const row = (role: string, name: string, { model, globalId }: ElementRef): string[] => [
    ...[sentence(role), text(name), globalIdMarkup(globalId), text(files.get(model) ?? model)],
  ];
  const { duct, barrier, opening } = p;
  const isDuct = (ref: ElementRef): boolean => ref.globalId === duct.globalId && ref.model === duct.model;
  return table(
    'elements',
    ['Element', 'Name', 'GlobalId', 'File'],
    [
      row(valueWords(duct.element), duct.name, duct),
      ...p.elements.filter((ref) => !isDuct(ref)).map((ref) => row('ductwork', '', ref)),
      row(barrier.kind, barrier.name, barrier),
      ...barrier.leaves.map((leaf) => row('leaf of the barrier', '', leaf)),
      ...(opening && opening.globalId !== null
        ? [row('opening', '', { model: opening.model, globalId: opening.globalId })]
        : []),
    ],
  );
}
