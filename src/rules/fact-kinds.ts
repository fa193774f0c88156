/** What a fact is: its type, its unit, what it is called when it is missing; and the words that facts are declared with. */
import type { Unit } from '../model.js';

export type FactValue = number | string | boolean | readonly string[];
export interface FactObject {
  readonly [name: string]: FactValue | FactObject | undefined;
}

export interface Fact {
  readonly type: 'number' | 'text' | 'yesNo' | 'texts';
  /** Noun phrase that fits into "… is not known". */
  readonly says: string;
  readonly unit?: Unit;
  /** All values a text can have; a rule that compares with another one is refused. */
  readonly values?: readonly string[];
  /** The fact that is named as missing when this one can't be worked out. */
  readonly from?: string;
}

export interface FactGroup {
  readonly says: string;
  /** As with a fact. */
  readonly from?: string;
  readonly fields: { readonly [name: string]: Fact | FactGroup };
}

export const number = (says: string, unit?: Unit, from?: string): Fact => ({
  type: 'number',
  says,
  ...(unit && { unit }),
  ...(from && { from }),
});
export const text = (says: string, values?: readonly string[], from?: string): Fact => ({
  type: 'text',
  says,
  ...(values && { values }),
  ...(from && { from }),
});
export const yesNo = (says: string, from?: string): Fact => ({ type: 'yesNo', says, ...(from && { from }) });
export const texts = (says: string): Fact => ({ type: 'texts', says });
export const group = (says: string, fields: FactGroup['fields'], from?: string): FactGroup => ({
  says,
  fields,
  ...(from && { from }),
});

export const STATUSES = ['tested', 'unverified', 'demonstration'];
export const RATING_STATES = ['stated', 'durationOnly', 'notRequired', 'unstated', 'unreadable'];
/** Minutes; 0 where the text asks nothing of a criterion. */
export const criteria = (of: string) => ({
  loadbearing: number(`the loadbearing minutes of ${of}`, 'min'),
  integrity: number(`the integrity minutes of ${of}`, 'min'),
  insulation: number(`the insulation minutes of ${of}`, 'min'),
  duration: number(`the duration of ${of} without criteria`, 'min'),
});
