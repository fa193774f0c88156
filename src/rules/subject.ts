import type { Finding, Side, Vec3 } from '../model.js';
import type { FactObject } from './fact-schema.js';

/** One thing that a check looks at. */
export interface Subject {
  readonly facts: FactObject;
  readonly subject: Finding['subject'];
  /** Stable between revisions as far as the model's GlobalIds are; no file names, no coordinates. */
  readonly key: string;
  readonly side: Side | null;
  readonly at: Vec3 | null;
  /** Which barrier it is about; null for the models. */
  readonly barrier: string | null;
  /** Which run, or part of it between fire dampers, it is about as a whole; null: none. */
  readonly airway: string | null;
  /** Minutes by which findings are put in order. */
  readonly rank: number;
  /** Ids of the penetrations it is about. */
  readonly penetrations: readonly string[];
}

/** What all subjects at one barrier have. */
export type Shared = Pick<Subject, 'facts' | 'barrier' | 'airway' | 'rank'>;
