/**
 * Every word that the viewer itself shows, in one place. Sentences about findings come with the report. Sentence case; words of
 * outcomes, units and values are those of the papers (`src/words/`).
 */

import type { Outcome } from '../src/model.js';
import { counted } from '../src/words/text.js';
import { OUTCOME_WORDS } from '../src/words/values.js';
import type { ModelView, Side } from './state/state.js';

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
} as const;
