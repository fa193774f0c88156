/** What the page asks of the worker, and what comes back. The worker holds the facts of the review that is open. */
import type { Assumption } from '../../src/index.js';
import type { Report } from '../../src/report/schema.js';
import type { NewComment, NewConcession } from '../state/state.js';

export interface DroppedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** By the name of the request. Everything crosses by structured clone. */
export interface Requests {
  /** The whole review of models that were dropped, with the brief dropped beside them. */
  readonly check: {
    readonly asks: { readonly models: readonly DroppedFile[]; readonly brief: DroppedFile | null };
    readonly answers: { readonly report: Report; readonly geometry: ArrayBuffer };
  };
  /** Opens what a review wrote, so that choices can be tried. @param facts text of facts.json; null: there is none */
  readonly open: {
    readonly asks: { readonly reportText: string; readonly factsText: string | null };
    readonly answers: { readonly report: Report; readonly canTry: boolean };
  };
  readonly try: {
    readonly asks: { readonly assumptions: readonly Assumption[] };
    readonly answers: { readonly report: Report };
  };
  /** The brief with what was decided here written into it, as a file. */
  readonly brief: {
    readonly asks: {
      readonly assumptions: readonly Assumption[];
      readonly concessions: readonly NewConcession[];
      readonly comments: readonly NewComment[];
    };
    readonly answers: { readonly file: string; readonly text: string };
  };
  /** findings.bcf of the open review with the comments beside it. */
  readonly bcf: {
    readonly asks: { readonly comments: readonly NewComment[] };
    readonly answers: { readonly bytes: Uint8Array };
  };
  /** A BCF file that came back: the report with what people said of its findings. */
  readonly bcfIn: { readonly asks: { readonly bytes: Uint8Array }; readonly answers: { readonly report: Report } };
}
export type RequestName = keyof Requests;

export type Question = {
  [N in RequestName]: { readonly id: number; readonly name: N; readonly asks: Requests[N]['asks'] };
}[RequestName];

export type Message =
  | { readonly id: number; readonly stage: string; readonly share: number }
  | { readonly id: number; readonly answers: unknown }
  /** One clear line: what, where, what to do. */
  | { readonly id: number; readonly fault: string };
