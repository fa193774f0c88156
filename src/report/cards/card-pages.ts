/** The pages of one installation card: where and whether first, then what is built in which order, then what is signed. */
import { drawElevation, SHEET_HEIGHT } from '../../draw/paper/elevation.js';
import { drawSection, sectionNotes } from '../../draw/paper/section.js';
import type { Style } from '../../draw/paper/text.js';
import { capital, counted } from '../../words/text.js';
import { STATUS_WORDS, valueWords } from '../../words/values.js';
import { concessionWords } from '../concession-words.js';
import { damperSentences } from '../damper-words.js';
import {
  BEFORE_WORDS,
  HOLD_LINE,
  type HoldStep,
  isReady,
  stepState,
  stopsAt,
  type ToSettle,
  toSettle,
  unlistedWords,
} from '../hold-points.js';
import { tag } from '../html-markup.js';
import type { Lookup } from '../lookup.js';
import type { ReportPenetration, ReportTakeoff } from '../schema.js';
import { kindWords } from '../takeoff-words.js';
import { FRONT_ROOM, LATER_ROOM, SPACE, WIDTH } from './card-style.js';
import { type Block, type Column, type Piece, pagesOf, plainBlock, tableBlock, tableRow, textPiece } from './flow.js';
import { frontHead, laterHead } from './heads.js';
import { amountWords, type PartRow } from './parts.js';

export interface CardInput {
  readonly penetration: ReportPenetration;
  readonly lookup: Lookup;
  readonly parts: readonly PartRow[];
  readonly uncounted: readonly ReportTakeoff['uncounted'][number][];
  /** Tells its drawings from those of other cards. */
  readonly id: string;
  readonly reviewedOn: string;
}

const TEXT: Style = { lettering: 'normal' };
const STRONG: Style = { lettering: 'normal', bold: true };
const NOTE: Style = { lettering: 'small' };

/** @returns the markup of each page, without what stands on every page of the file */
export function cardPages(input: CardInput): string[] {
  const { penetration: p, lookup, id } = input;
  const { revision, penetrations: others } = lookup;
  const findings = (lookup.findings.get(p.id) ?? []).filter(({ outcome }) => outcome === 'failed');
  const settle = toSettle(p, lookup);
  const drawing = { penetration: p, revision, isBare: true };
  const elevation = drawElevation({ ...drawing, findings, others, id: `${id}e` });
  const section = drawSection({ ...drawing, id: `${id}s` });
  const front = pagesOf([plainBlock(figure(elevation))], FRONT_ROOM);
  const blocks = [
    ...settleBlocks(p, settle),
    detailBlock(p),
    ...partBlocks(input),
    ...uncountedBlocks(input),
    notesBlock(p),
    plainBlock(figure(section)),
    holdBlock(p, settle),
  ];
  const pages = [...front, ...pagesOf(blocks, LATER_ROOM)];
  return pages.map((page, i) => {
    const head = { penetration: p, revision, settle, page: i + 1, of: pages.length, reviewedOn: input.reviewedOn };
    return `${i === 0 ? frontHead(head) : laterHead(head)}\n${page}`;
  });
}

const figure = (svg: string): Piece => ({ markup: tag('figure', {}, svg), height: SHEET_HEIGHT + 1.5 });

/** What has to be settled first, with what would settle it. */
function settleBlocks(p: ReportPenetration, settle: readonly ToSettle[]): Block[] {
  if (isReady(p, settle)) return [];
  const columns: Column[] = [
    { width: 27, head: 'Settle' },
    { width: WIDTH - 27, head: 'What, and how' },
  ];
  const rows = settle.map(({ finding: { outcome, message, remedy, concession }, stops }) =>
    tableRow(columns, [
      [{ text: stops === null ? 'before any work' : BEFORE_WORDS[stops], style: STRONG }],
      [
        { text: outcome === 'failed' ? message : `Can't tell: ${message}`, style: TEXT },
        { text: `Do: ${remedy ?? 'not stated; ask who sent this card.'}`, style: STRONG },
        ...(concession ? [{ text: concessionWords(concession), style: NOTE }] : []),
      ],
    ]),
  );
  const unlisted = unlistedWords(p, settle);
  const rest =
    unlisted === null
      ? []
      : [tableRow(columns, [[{ text: 'before any work', style: STRONG }], [{ text: unlisted, style: TEXT }]])];
  return [tableBlock('Settle first', 'settle', columns, [...rows, ...rest])];
}

function partBlocks({ parts }: CardInput): Block[] {
  if (parts.length === 0) return [];
  const columns: Column[] = [
    { width: 10, head: 'No.' },
    { width: WIDTH - 58, head: 'Part, in the order of the work' },
    { width: 37, head: 'How much' },
    { width: 11, head: 'Done' },
  ];
  const rows = parts.map((row) =>
    tableRow(
      columns,
      [
        [{ text: row.numbers.join(', '), style: STRONG }],
        [
          { text: capital(row.item.what), style: TEXT },
          { text: row.material.name, style: NOTE },
        ],
        [{ text: amountWords(row), style: STRONG, className: 'amount' }],
        [BOX],
      ],
      { 'data-item': row.item.id },
    ),
  );
  return [tableBlock('Build, in this order', 'parts', columns, rows)];
}

/** To tick. */
const BOX: Piece = { markup: tag('span', { class: 'box' }), height: 4.5 };

function uncountedBlocks({ uncounted }: CardInput): Block[] {
  if (uncounted.length === 0) return [];
  const columns: Column[] = [
    { width: 40, head: 'Not counted here' },
    { width: WIDTH - 40, head: 'Not known' },
  ];
  const rows = uncounted.map(({ material, what, because }) =>
    tableRow(columns, [
      [{ text: capital(material === null ? what : `${kindWords(material)}: ${what}`), style: TEXT }],
      [{ text: because, style: TEXT }],
    ]),
  );
  return [tableBlock('Ask before you build', 'uncounted', columns, rows)];
}

/** By which tested detail it is built; without one, what is there instead. */
function detailBlock(p: ReportPenetration): Block {
  const { chosen, layers } = p.treatment;
  const line = (text: string, style: Style): Piece => textPiece({ text, style }, WIDTH);
  if (chosen)
    return plainBlock(
      spaced(line(`By ${chosen.title}`, STRONG)),
      line(
        `Along the duct: ${layersWords(chosen.layers ?? layers, chosen.layerThickness)}.${chosen.faces === null ? '' : ` Built on ${chosen.faces === 'both' ? 'both faces' : 'one face'}.`} Document: ${chosen.source} Status: ${STATUS_WORDS[chosen.status]}.`,
        NOTE,
      ),
    );
  return plainBlock(
    spaced(line(`No tested system is chosen here. Protection: ${valueWords(p.treatment.kind)}.`, STRONG)),
    ...damperSentences(p).map((sentence) => line(capital(sentence), TEXT)),
  );
}

/** Clear of what stands above. */
const spaced = ({ markup, height }: Piece): Piece => ({
  markup: tag('div', { class: 'spaced' }, markup),
  height: height + SPACE,
});

/** The first says by what it is built, as the card itself does. */
function notesBlock(p: ReportPenetration): Block {
  return plainBlock(
    ...sectionNotes(p)
      .slice(1)
      .map((text) => textPiece({ text: `Section: ${text}`, style: NOTE }, WIDTH)),
  );
}

const layersWords = (layers: number | null, each: number | null): string =>
  `${layers === null ? 'how many layers is not known' : counted(layers, 'layer')}${each === null ? '' : ` of ${each} mm as fixed`}`;

/** Room to write in, mm. */
const SIGN_HEIGHT = 9;

function holdBlock(p: ReportPenetration, settle: readonly ToSettle[]): Block {
  const columns: Column[] = [
    { width: WIDTH - 70, head: 'Hold points: wait until signed' },
    { width: 34, head: 'Name' },
    { width: 20, head: 'Date' },
    { width: 16, head: 'Initials' },
  ];
  const rows = HOLD_LINE.map((step) => {
    const stopped = stopsAt(p, step, settle);
    const { markup, height } = tableRow(
      columns,
      [
        [
          stopped > 0
            ? { text: `STOP: ${step.name}`, style: STRONG, className: 'stop' }
            : { text: step.name, style: STRONG },
          { text: lookWords(p, step), style: NOTE },
        ],
        ...[[], [], []],
      ],
      { style: `height:${SIGN_HEIGHT}mm` },
    );
    return { markup, height: Math.max(height, SIGN_HEIGHT) };
  });
  return { ...tableBlock(null, 'hold', columns, rows), isWhole: true };
}

function lookWords(p: ReportPenetration, step: HoldStep): string {
  const state = stepState(p, step);
  if (state === 'notOfDetail') return 'not part of this detail: strike out';
  if (state === 'unknown')
    return p.dampers.length > 0 ? "by the damper's own tested document" : 'no tested detail says what is built here';
  return step.look;
}
