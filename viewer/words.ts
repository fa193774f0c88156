/**
 * Every word that the viewer itself shows, in one place. Sentences about findings come with the report. Sentence case; words of
 * outcomes, units and values are those of the papers (`src/words/`).
 */

import type { Outcome } from '../src/model.js';
import { HOLD_LINE } from '../src/report/hold-points.js';
import { capital, counted, listed } from '../src/words/text.js';
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
  page: { title: 'Ratedrun', demonstration: 'DEMONSTRATION DATA' },
  opening: {
    empty: 'Drop IFC files here. Nothing leaves this computer.',
    pick: 'Choose files',
    also: [
      'All models of the building together: .ifc or .ifczip.',
      'With them, where there are any: a project brief (.yaml), and the report.json of the last check, whose tags stay.',
      'Or a finished review: report.json with its facts.json and geometry.glb.',
    ],
    letGo: 'Let go to check these files.',
    letGoOpen:
      'Let go: IFC files or a report take the place of the review that is open; a BCF file adds what people said to it.',
    unsaved: 'What is not saved yet would be lost.',
    local: 'All that is read here stays here',
    opening: 'Opening the review',
    stop: 'Stop',
    stopped: (isOpen: boolean): string =>
      `Stopped. ${isOpen ? 'The review from before is still open.' : 'Nothing was kept.'}`,
    failed: 'This could not be opened',
    again: 'Choose other files',
    back: 'Back to the review',
    noReport: (path: string): string => `${path} is not there; check the models first.`,
    files: 'Files',
    storeys: 'Storeys',
    fileRead: (name: string, ducts: number, barriers: number): string =>
      `${name}: ${counted(ducts, 'piece')} of ductwork, ${counted(barriers, 'wall, floor or roof', 'walls, floors and roofs')}`,
    storeyRead: (ducts: number, barriers: number): string =>
      [...(ducts > 0 ? [`${ducts} ductwork`] : []), ...(barriers > 0 ? [counted(barriers, 'barrier')] : [])].join(', '),
    saved: ({ file, onServer }: { readonly file: string; readonly onServer: boolean }): string =>
      onServer ? `${file} is written beside the report.` : `${file} is among your downloads.`,
    topicsSaved: (topics: number): string => `findings.bcf with ${counted(topics, 'topic')} is among your downloads.`,
    topicsRead: (file: string, topics: number, others: number): string =>
      `${file}: ${counted(topics, 'topic')} on findings of this report${others === 0 ? '' : `, ${others} on none of them`}.`,
  },
  trial: {
    heading: 'Trial',
    judging: 'Judging again',
    assumed: 'Assumed',
    choice: (name: string, value: string, before: string | null): string =>
      `${name}: ${value} (${before === null ? 'the brief says nothing' : `in the brief: ${before}`})`,
    leftOut: 'left out',
    penetrations: 'Penetrations',
    results: 'Results of all checks',
    findings: 'Findings',
    moved: (goes: number, comes: number): string =>
      goes + comes === 0
        ? 'No finding goes or comes.'
        : `${counted(goes, 'finding')} would go or change, ${counted(comes, 'finding')} would come or change.`,
    showMoved: 'Only these',
    materials: 'Quantities',
    noMaterials: 'No quantity changes.',
    more: (count: number): string => `and ${count} more`,
    notThis: 'What this is not',
    keep: 'Keep as brief file',
    end: 'Back to the review',
    none: 'none',
    asNow: (count: string): string => `${count} (as now)`,
    becomes: (before: string, after: string): string => `${before} → ${after}`,
  },
  unsaved: {
    heading: 'Not saved yet',
    entries: (concessions: number, comments: number): string =>
      [
        ...(concessions > 0 ? [counted(concessions, 'concession')] : []),
        ...(comments > 0 ? [counted(comments, 'comment')] : []),
      ].join(' and '),
    save: 'Save as brief file',
    saveTo: (file: string): string => `Save to ${file}`,
    send: 'Send out as BCF file',
    takeBack: 'Take back',
    concession: (finding: string, by: string, reason: string): string => `Concession by ${by}: ${reason} (${finding})`,
    comment: (finding: string, by: string, text: string): string => `Comment by ${by}: ${text} (${finding})`,
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
  model: {
    asModelled: 'As modelled',
    asProposed: 'As proposed',
    protection: 'Protection',
    onlyStorey: 'Only this storey',
    measure: 'Measure',
    here: 'What is here',
    close: 'Close',
    toolsFor: 'What the model shows',
    viewsFor: 'Where to stand',
    canvas: 'The building in three dimensions',
    canvasKeys:
      'In Free, arrow keys turn. Plus and minus come nearer and go back, shift with arrows moves. Enter selects what is in the middle.',
    preparing: 'The model is being prepared.',
    none: 'This report has no geometry beside it. Check the models again to see them here.',
    noWebGL: 'This browser can not draw in three dimensions (no WebGL), so the drawing stands here.',
    lost: 'The graphics card has dropped the model; the drawing stands here until it comes back.',
    unread: (reason: string): string => `The model can not be drawn: ${reason}`,
    nothingSelected: 'Select a penetration to see its drawing here.',
    noStorey: 'Select a penetration first: then its storey is known.',
    nothingProposed: 'No change is proposed here.',
    noSelection: 'Select a penetration first.',
    up: 'up',
    down: 'down',
    whole: 'The whole building from above the south-west.',
    wholeAbove: 'The whole building from above, north at the top.',
    wholeFree: 'The whole building, turned freely.',
    facing: (side: Side, name: string, rated: string, way: string): string =>
      `Facing side ${side} of ${name}, ${rated}, looking ${way}.`,
    beside: (of: string, way: string, onRight: Side): string =>
      `Beside ${of}, looking ${way}: side ${onRight === 'A' ? 'B' : 'A'} on the left, side ${onRight} on the right. What stands nearer is cut away.`,
    above: (of: string, rated: string, foot: Side | null): string =>
      `Above ${of}, ${rated}, looking down${foot ? `: side ${foot} at the foot` : ''}. What lies over it is cut away.`,
    about: (of: string, rated: string, way: string): string =>
      `About ${of}, ${rated}, looking ${way}. Nothing is cut away.`,
    cutAway: (names: readonly string[], more: number): string => {
      const all = listed([...names, ...(more > 0 ? [`${more} more`] : [])]);
      return `${capital(all)} before it ${names.length + more === 1 ? 'is' : 'are'} cut away.`;
    },
    kinds: {
      ...{ duct: 'duct', damper: 'damper', opening: 'opening', service: 'service', context: '' },
      ...{ barrier: 'barrier', wall: 'wall', floor: 'floor', roof: 'roof' },
    },
    contextKind: 'not checked and stands here as context',
    measureFirst: 'Choose the first point: corners and edges draw it to them. Esc ends.',
    measureSecond: 'Choose the second point. Esc ends.',
    measureNothing: 'There is nothing to measure at that place.',
    /** @param along lengths with their units */
    measured: (
      total: string,
      along: { readonly right: string; readonly up: string; readonly normal: string },
    ): string => `${total}: ${along.right} to the side, ${along.up} up, ${along.normal} through the barrier.`,
    measuredAlone: (
      total: string,
      along: { readonly right: string; readonly up: string; readonly normal: string },
    ): string => `${total}: ${along.right} east, ${along.up} up, ${along.normal} north.`,
    betweenCorners: 'Duct to opening',
    betweenCornersFor: 'Measure between a corner of the duct and the nearest of the opening',
    corner: (i: number): string => `Corner ${i + 1} of the duct`,
    facts: {
      heading: 'Selected element',
      is: (name: string, kind: string): string => `${name} is ${kind}.`,
      size: (size: string): string => `Its section is ${size} mm.`,
      overall: (size: string): string => `As drawn it measures ${size} along the axes of the model.`,
      rated: (rating: string): string => `It is ${rating}.`,
      thickness: (thickness: string): string => `It is ${thickness} thick.`,
      construction: (construction: string): string => `Construction: ${construction}.`,
      system: (system: string): string => `It belongs to system ${system}.`,
      run: (run: string): string => `It is part of run ${run}.`,
      storey: (storey: string): string => `It is filed under ${storey}.`,
      inBarrier: (barrier: string): string => `It is in ${barrier}.`,
      protection: (parts: string, system: string, status: string): string =>
        `To be protected with ${parts} of ${system}, ${status}.`,
      layers: (part: string, layers: number): string => `${part} in ${layers} layers`,
      passes: 'Where it passes',
      findings: 'Findings',
      none: 'No finding speaks about it.',
      morePlaces: (count: number): string => `${counted(count, 'more place')} in the table.`,
      more: (count: number): string => `${counted(count, 'more finding')} in the table.`,
    },
  },
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
