/** All that the viewer shows follows from this. Plain data; the store alone changes it. */
import type { Assumption } from '../../src/index.js';
import type { ElementRef, Outcome, RatingState } from '../../src/model.js';
import type { Report } from '../../src/report/schema.js';
import type { Choosable } from '../../src/review/choosable.js';
import type { Geometry } from '../model/geometry.js';
import type { Building } from './building.js';
import type { Row, StopsAt } from './rows.js';

/** Of a barrier: A is the face that one sees who looks along the normal of its penetrations; of a floor, from above. */
export type Side = 'A' | 'B';

/** How one stands before the model; words in `words.ts`. */
export const MODEL_VIEWS = ['front', 'otherSide', 'along', 'above', 'free'] as const;
export type ModelView = (typeof MODEL_VIEWS)[number];

/** What is selected. Selecting a finding or a penetration selects its barrier too. */
export interface Selection {
  /** `model/globalId`, as `Building.barriers` has it. */
  readonly barrier: string | null;
  readonly side: Side;
  /** Id in the report. */
  readonly penetration: string | null;
  /** Id in the report; of a run or model there is no penetration beside it. */
  readonly finding: string | null;
  /** Picked in the model; it may be nothing that a finding speaks about. */
  readonly element: ElementRef | null;
}

/** Empty lists and an empty text let everything through. */
export interface Filter {
  /** Keys of `Building.storeys`. */
  readonly storeys: readonly string[];
  readonly systems: readonly string[];
  /** Keys of `Building.barriers`. */
  readonly barriers: readonly string[];
  readonly outcomes: readonly Outcome[];
  /** Ids of checks. */
  readonly checks: readonly string[];
  /** As `Row.rating`. */
  readonly ratings: readonly string[];
  /** The earliest hold point that would be stopped. */
  readonly stopsAt: readonly StopsAt[];
  /** Of findings: those that a trial moves. Passing, so it is in no address. */
  readonly keys: readonly string[];
  /** Words that all have to stand in the row. */
  readonly text: string;
}

export const NO_FILTER: Filter = {
  ...{ storeys: [], systems: [], barriers: [], outcomes: [], checks: [], ratings: [], stopsAt: [], keys: [] },
  text: '',
};

export const SORT_COLUMNS = [
  ...(['seriousness', 'storey', 'barrier', 'tag', 'system', 'check', 'margin'] as const),
  ...(['rating', 'stops', 'concession'] as const),
] as const;
export type SortColumn = (typeof SORT_COLUMNS)[number];
export interface Sort {
  readonly column: SortColumn;
  readonly descending: boolean;
}

/** A report with what is looked up in it, made once when it is opened. */
export interface OpenReport {
  readonly report: Report;
  readonly building: Building;
  readonly rows: readonly Row[];
}

/** What the person asked to see otherwise, and what came of it. */
export interface Trial {
  readonly assumptions: readonly Assumption[];
  /** Undefined: still being judged. */
  readonly open: OpenReport | undefined;
}

export interface NewComment {
  /** Key of a finding. */
  readonly finding: string;
  readonly text: string;
  readonly author: string;
  /** ISO 8601 in UTC. */
  readonly date: string;
}

/** What is not yet in any brief file: entries as the brief has them. */
export interface Unsaved {
  readonly concessions: readonly NewConcession[];
  readonly comments: readonly NewComment[];
}
/** An entry of the brief's `concessions`; `measured` and `limit` are the finding's. */
export interface NewConcession {
  readonly key: string;
  readonly reason: string;
  readonly grantedBy: string;
  readonly role: string;
  readonly reference: string;
  readonly date: string;
  readonly expires?: string;
}

/** What the files gave that were read so far. */
export interface ReadSoFar {
  readonly files: readonly { readonly name: string; readonly ducts: number; readonly barriers: number }[];
  /** From the top down; those of one name and height together. */
  readonly storeys: readonly {
    readonly name: string;
    /** mm. */
    readonly elevation: number;
    readonly ducts: number;
    readonly barriers: number;
  }[];
}

export interface Progress {
  readonly stage: string;
  /** 0 to 1 of this stage. */
  readonly share: number;
  /** Null: no models are read. */
  readonly read: ReadSoFar | null;
}

export type Phase =
  | { readonly kind: 'empty' }
  | ({ readonly kind: 'loading' } & Progress)
  | { readonly kind: 'ready' }
  /** One clear line: what, where, what to do. */
  | { readonly kind: 'failed'; readonly message: string };

export interface ViewerState {
  readonly phase: Phase;
  /** As it was reviewed. */
  readonly reviewed: OpenReport | null;
  readonly trial: Trial | null;
  /** geometry.glb; null where there is none. */
  readonly geometry: Geometry | null;
  /** What the brief chooses and what it could choose; null: without facts nothing can be tried; undefined: not yet known. */
  readonly choosable: Choosable | null | undefined;
  /** Whether what is written goes to a local server (by its file name), or is downloaded. */
  readonly savesTo: string | null;
  readonly selection: Selection;
  readonly filter: Filter;
  /** What the page's address asked for and this report does not have, in words. */
  readonly notHere: readonly string[];
  readonly sort: Sort;
  readonly faces: 'drawings' | 'table';
  readonly view: ModelView;
  /** Remedies as proposed instead of the models as they are. */
  readonly proposed: boolean;
  readonly protection: boolean;
  readonly onlyStorey: boolean;
  readonly unsaved: Unsaved;
  /** The last thing that was done or could not be done, in one line; `''`: nothing is to be said. */
  readonly said: string;
}

export const NOTHING_SELECTED: Selection = {
  ...{ barrier: null, side: 'A', penetration: null, finding: null, element: null },
};

export const FIRST_STATE: ViewerState = {
  phase: { kind: 'empty' },
  ...{ reviewed: null, trial: null, geometry: null, choosable: null, savesTo: null },
  selection: NOTHING_SELECTED,
  ...{ filter: NO_FILTER, notHere: [] },
  sort: { column: 'seriousness', descending: false },
  ...{ faces: 'drawings', view: 'front', proposed: false, protection: true, onlyStorey: false },
  unsaved: { concessions: [], comments: [] },
  said: '',
};

/** What is looked at: the trial where one is made, else the review. */
export const shownIn = ({ reviewed, trial }: ViewerState): OpenReport | null => trial?.open ?? reviewed;

/** The states of ratings in the order in which people look for them. */
export const RATING_STATES: readonly RatingState[] = [
  'stated',
  'durationOnly',
  'unreadable',
  'unstated',
  'notRequired',
];
