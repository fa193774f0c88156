/**
 * Every word that the viewer itself shows, in one place. Sentences about findings come with the report. Sentence case; words of
 * outcomes, units and values are those of the papers (`src/words/`).
 */

import type { Outcome } from '../src/model.js';
import { HOLD_LINE } from '../src/report/hold-points.js';
import { counted, listed } from '../src/words/text.js';
import { OUTCOME_WORDS } from '../src/words/values.js';
import type { Dimension } from './state/filter.js';
import type { ModelView, Side, StopsAt } from './state/state.js';

const OUTCOMES_IN_TEXT: { readonly [O in Outcome]: string } = {
  failed: 'failed',
  cantTell: "can't tell",
  passed: 'passed',
  inapplicable: 'inapplicable',
  untested: 'untested',
};

export const WORDS = {
  page: {
    title: 'Ratedrun',
    empty: 'Drop IFC files here. Nothing leaves this computer.',
    emptyMore: 'A project brief (.yaml) dropped with them is used too.',
    pick: 'Choose files',
    stop: 'Stop',
    stopped: 'Stopped. Nothing was kept.',
    again: 'Try other files',
    demonstration: 'DEMONSTRATION DATA',
  },
  regions: {
    section: 'Building section',
    faces: 'Barrier faces',
    table: 'Findings',
    model: 'Model',
    sheet: 'Finding sheet',
    status: 'Filter and cautions',
  },
  faces: { asDrawings: 'As drawings', asTable: 'As table', otherSide: 'Other side' },
  turns: { model: 'Model', sheet: 'Sheet' },
  views: {
    front: 'In front',
    otherSide: 'Other side',
    along: 'Along the duct',
    above: 'From above',
    free: 'Free',
  } satisfies { readonly [V in ModelView]: string },
  model: { asModelled: 'As modelled', asProposed: 'As proposed' },
  outcomes: OUTCOME_WORDS,
  side: (side: Side): string => `Side ${side}`,
  /** `3 failed, 2 can't tell`; never "all clear". */
  counts: (counts: { readonly [O in Outcome]: number }): string => {
    const said = (['failed', 'cantTell', 'untested', 'passed', 'inapplicable'] as const)
      .filter((outcome) => counts[outcome] > 0)
      .map((outcome) => `${counts[outcome]} ${OUTCOMES_IN_TEXT[outcome]}`);
    return said.join(', ');
  },
  noneFailed: (untold: number): string =>
    `No check failed. ${untold === 0 ? 'Nothing could not be told.' : `${counted(untold, 'result')} could not be told.`}`,
  outcomeInText: (outcome: Outcome): string => OUTCOMES_IN_TEXT[outcome],
  section: {
    all: 'All storeys',
    noStorey: 'No storey stated',
    hint: 'Enter or click: this storey; with Shift: up to here; again: all',
    ofAll: (count: number, outcome: Outcome, all: number): string =>
      count === all ? `${count} ${OUTCOMES_IN_TEXT[outcome]}` : `${count} ${OUTCOMES_IN_TEXT[outcome]} of ${all}`,
    nothing: 'no penetration',
    selectedHere: 'the selected penetration is here',
    shaft: (names: string): string => `Shaft ${names}`,
    inFloor: (counts: string): string => `in the floor: ${counts}`,
  },
  drawn: {
    shownAs: 'How the barriers are shown',
    legend: 'Ticks: five hold points; the filled one is the first at risk.',
    facing: (side: Side, way: string): string => `Side ${side}, looking ${way}`,
    fromAbove: 'from above',
    fromBelow: 'from below',
    down: 'down',
    up: 'up',
    noRating: 'rating not stated',
    noOutline: 'outline not drawn',
    turn: (barrier: string): string => `Other side of ${barrier}`,
    scale: (n: number): string => `1:${n}`,
    wholeAgain: (n: number): string => `Back to 1:${n}`,
    cluster: (count: number): string => `${count} together`,
    opens: 'Show larger',
    atRisk: (step: string | null): string => (step === null ? 'no hold point at risk' : `${step}: first at risk`),
    newIn: (revision: string): string => `new in revision ${revision}`,
    shapeUnknown: 'shape not known',
    nothing: 'No penetration passes the filter.',
    noPenetrations: 'The models have no penetration of a rated barrier by ductwork.',
    clear: 'Clear the filter',
    allowed: (measured: string, limit: string): string => `${measured}, allowed ${limit}`,
  },
  stopsAt: (stops: StopsAt): string =>
    stops === 'handover' ? 'Handover' : HOLD_LINE.find(({ id }) => id === stops)!.name,
  filter: {
    parts: {
      ...{ storeys: 'Storey', systems: 'System', barriers: 'Barrier', outcomes: 'Outcome', checks: 'Check' },
      ...{ ratings: 'Rating', stopsAt: 'Stops at' },
    } satisfies { readonly [D in Dimension]: string },
    any: {
      ...{ storeys: 'All storeys', systems: 'Any system', barriers: 'Any barrier', outcomes: 'Any outcome' },
      ...{ checks: 'Any check', ratings: 'Any rating', stopsAt: 'Whatever it stops' },
    } satisfies { readonly [D in Dimension]: string },
    /** Of what has no value in a part. */
    none: {
      ...{
        storeys: 'On no storey',
        systems: 'No system named',
        barriers: 'At no barrier that is passed',
        outcomes: '',
      },
      ...{ checks: 'Without a finding', ratings: 'No rating stated', stopsAt: '' },
    } satisfies { readonly [D in Dimension]: string },
    /** `Ground floor or Roof`; of many the first and how many more. */
    either: (labels: readonly string[]): string =>
      labels.length <= 2 ? listed(labels, 'or') : `${labels[0]} or ${labels.length - 1} more`,
    rated: (rating: string): string => `rated ${rating}`,
    stops: (steps: string): string => `stops at ${steps}`,
    said: (text: string): string => `\u201c${text}\u201d`,
    moving: 'Trial',
    moved: (count: number): string => `${counted(count, 'finding')} that the trial moves`,
    notOnlyMoved: 'What it leaves too',
    everything: 'Everything on all storeys',
    only: 'only \u2026',
    and: 'and \u2026',
    clear: 'clear',
    addPart: 'What the findings have to be or say',
    words: 'Words',
    anyWords: 'Any words',
    wordsHint: 'Words that all have to stand in the row',
    narrow: 'Type to narrow',
    noValue: (typed: string): string => `Nothing here is called \u201c${typed}\u201d.`,
    /** Of a long list. */
    firstOf: (shown: number, all: number): string => `The first ${shown} of ${all}; type to narrow.`,
    change: (part: string, value: string): string => `${part}: ${value}. Change or leave out`,
    shown: (findings: string, penetrations: string): string => `${findings} at ${penetrations}`,
    nothing: 'Nothing is all of this.',
    notHere: (names: readonly string[]): string =>
      `The address asks for what this report does not have: ${listed(names)}. The rest is shown.`,
    unreadable: 'an address part that can not be read',
    dismiss: 'Understood',
    revision: (revision: string): string => `Revision ${revision}`,
    cautions: 'What this report is not',
    close: 'Close',
  },
  table: {
    label: 'Findings',
    columns: {
      ...{ outcome: 'Outcome', concession: 'Concession', tag: 'Tag', system: 'System', barrier: 'Barrier' },
      ...{
        storey: 'Storey',
        rating: 'Rating',
        stops: 'Stops at',
        check: 'Check',
        finding: 'Finding',
        margin: 'Margin',
      },
    },
    search: 'Search',
    searchHint: 'words, tags, names',
    any: 'any',
    only: (count: number): string => `only ${count}`,
    choose: (column: string, chosen: string): string => `${column}: ${chosen}. Choose values`,
    rows: (shown: string, all: string): string => `${shown} of ${all} rows`,
    none: 'No row is all of this. Take something out of the filter below.',
    noFinding: (counts: string): string => `No finding here: ${counts}.`,
    concession: { inForce: 'Conceded', lapsed: 'Lapsed' },
    select: 'Select a row to read it whole.',
    reading: 'Selected finding',
    remedy: 'Remedy',
    missing: 'Missing',
    allowed: 'Allowed',
    measured: 'Measured',
    basis: 'Basis',
    toSheet: 'Open the sheet',
  },
  keys: {
    title: 'Keys',
    open: 'Keys',
    to: 'to',
    along: 'The next penetration on this barrier, in walking order',
    barrier: 'The next barrier',
    storey: 'The storey above or below',
    sheet: 'To the sheet',
    back: 'Back: closes what is open, then leaves what is selected',
    table: 'As drawings or as table',
    search: 'Search the table',
    views: (views: readonly string[]): string => `How the model stands: ${listed(views, 'or')}`,
    side: 'The other side of the barrier',
    help: 'This list',
    note: 'In fields, lists and the table the keys belong to what has the focus. In the table: arrows, Page up and down, Home and End move, Enter opens the sheet.',
  },
} as const;
