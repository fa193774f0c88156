/** Heads of a card's pages: the tag first and large, and whether anybody may build. */
import { markPicture } from '../../draw/paper/mark.js';
import { drawQrCode } from '../../draw/paper/qr-code.js';
import { fitted, type Style, wrapped } from '../../draw/paper/text.js';
import type { HoldPoint } from '../../model.js';
import { faceName } from '../../words/faces.js';
import { capital, counted, listed, number } from '../../words/text.js';
import { OUTCOME_WORDS, valueWords } from '../../words/values.js';
import { BEFORE_WORDS, isReady, type ToSettle } from '../hold-points.js';
import { tag, text } from '../html-markup.js';
import type { ReportPenetration } from '../schema.js';
import { gapWords, openingWords, ratingWords, sectionWords } from '../words.js';
import { QR_SIZE, WIDTH } from './card-style.js';

export interface Head {
  readonly penetration: ReportPenetration;
  readonly revision: string | null;
  readonly settle: readonly ToSettle[];
  readonly page: number;
  readonly of: number;
  readonly reviewedOn: string;
}

export const revisionWords = (revision: string | null): string =>
  revision === null ? 'revision not stated' : `revision ${revision}`;

export function frontHead(head: Head): string {
  const { penetration: p, revision, page, of } = head;
  const places = placesOf(p);
  return [
    tag(
      'header',
      { class: 'front' },
      tag(
        'div',
        {},
        tag('h2', {}, text(p.tag)),
        tag('p', { class: 'large bold' }, text(capital(revisionWords(revision)))),
        tag('p', { class: 'small' }, `${pageWords(page, of)}; key `, tag('span', { class: 'key' }, text(p.key))),
      ),
      drawQrCode(p.key, QR_SIZE),
    ),
    stateBox(head, MOST_PLACE_LINES - places.reduce((sum, { lines }) => sum + lines.length, 0)),
    placeTable(places),
  ].join('\n');
}

export function laterHead(head: Head): string {
  const { penetration: p, revision, page, of } = head;
  const ready = isReady(p, head.settle);
  return tag(
    'header',
    { class: 'later' },
    tag('p', { class: 'title bold' }, text(p.tag)),
    tag('p', { class: 'normal' }, text(revisionWords(revision))),
    tag('p', { class: ready ? 'normal state' : 'normal state not-ready' }, ready ? 'Reviewed: passed' : 'NOT READY'),
    tag('p', { class: 'small' }, pageWords(page, of)),
  );
}

const pageWords = (page: number, of: number): string => `page ${page} of ${of}`;

/** @param spare lines that the place leaves: for what to do first */
function stateBox({ penetration: p, settle, reviewedOn }: Head, spare: number): string {
  const ready = isReady(p, settle);
  const head = ready
    ? `Reviewed ${reviewedOn}: passed`
    : `NOT READY: ${OUTCOME_WORDS[p.outcome].toLowerCase()}; see page 2`;
  const below = ready
    ? 'No leave to build: measure first, and sign each hold point.'
    : fitted(toSettleWords(settle), WIDTH - 8, STRONG);
  return tag(
    'div',
    { class: ready ? 'state ready' : 'state not-ready' },
    tag('p', { class: 'large bold' }, ready ? markPicture(p.outcome) : '', head),
    tag('p', { class: 'normal' }, text(below)),
    ...(ready || spare <= 0 ? [] : [tag('p', { class: 'normal' }, text(firstWords(settle, spare)))]),
  );
}

/** What settles the first thing, as far as there is room for it. */
function firstWords([first]: readonly ToSettle[], lines: number): string {
  const remedy = first?.finding.remedy ?? null;
  return remedy === null ? '' : wrapped(`First: ${remedy}`, WIDTH - 8, lines, STRONG).join(' ');
}

function toSettleWords(settle: readonly ToSettle[]): string {
  const words = ([null, 'formingOpening', 'closingUp', 'handover'] as const).flatMap((stops: HoldPoint | null) => {
    const count = settle.filter((one) => one.stops === stops).length;
    return count === 0 ? [] : [`${count} ${stops === null ? 'before any work' : BEFORE_WORDS[stops]}`];
  });
  return words.length === 0 ? 'Nothing proves what is built here.' : `To settle: ${listed(words)}.`;
}

const VALUE: Style = { lettering: 'normal' };
const CAPTION_WIDTH = 17;
const MOST_LINES = 2;

const STRONG: Style = { lettering: 'normal', bold: true };
/** As many as the page has room for, with the drawing under them. */
const MOST_PLACE_LINES = 7;

interface PlaceRow {
  readonly caption: string;
  readonly lines: readonly string[];
}

/** Values of one or two lines each: report.html has longer names whole. */
const placesOf = (p: ReportPenetration): PlaceRow[] =>
  placeRows(p).map(([caption, value, most = MOST_LINES]) => ({
    caption,
    lines: wrapped(value, WIDTH - CAPTION_WIDTH - 4, most, VALUE),
  }));

function placeTable(places: readonly PlaceRow[]): string {
  const rows = places.map(({ caption, lines }) => {
    const cell = tag('td', {}, tag('p', { class: 'normal' }, text(lines.join(' '))));
    return tag('tr', {}, tag('th', { scope: 'row' }, tag('p', { class: 'small' }, caption)), cell);
  });
  const columns = `<col style="width:${CAPTION_WIDTH}mm"><col>`;
  return tag('table', { class: 'place' }, columns, tag('tbody', {}, rows.join('')));
}

function placeRows({
  storey,
  place,
  barrier,
  faces,
  duct,
  opening,
  gaps,
}: ReportPenetration): [string, string, number?][] {
  const rooms = place.rooms.map((room) => room?.name || 'room not stated');
  const names = faces.map((face, i) => faceName(barrier.kind, i === 0 ? -1 : 1, face && { ...face, room: null }));
  const sides = names.map((name, i) => `${name.replace(/^the /, '')}: ${faces[i]?.room ?? rooms[i]}`);
  const construction = barrier.construction === 'unknown' ? 'construction not known' : valueWords(barrier.construction);
  const thickness = barrier.thickness === null ? 'thickness not known' : `${number(barrier.thickness)} mm`;
  const measured = gapWords(gaps);
  return [
    ['Where', `${storey?.name || 'storey not stated'}; grid ${place.grid ?? 'not stated'}`, 1],
    ['Faces', capital(sides.join('; '))],
    [
      capital(barrier.kind),
      `${barrier.name || 'without a name'}, ${ratingWords(barrier.rating)}; ${construction}, ${thickness}`,
    ],
    [
      'Duct',
      `${duct.system ?? (duct.name || 'unnamed')}, ${sectionWords(duct)}; opening ${openingWords(opening)}${measured === '' ? '' : `; gaps ${measured}`}`,
    ],
  ];
}

/** How many of the cards may be built by, for the first page. */
export const readyWords = (ready: number, all: number): string =>
  `${counted(all, 'card')}: ${ready} reviewed and passed, ${all - ready} NOT READY.`;
