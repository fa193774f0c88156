/** What the page asks of the worker, and what comes back. The worker holds the review that is open. */
import type { Assumption } from '../../src/index.js';
import type { Report } from '../../src/report/schema.js';
import type { Choosable } from '../../src/review/choosable.js';
import type { Progress, Unsaved } from '../state/state.js';

export interface DroppedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface BriefFile {
  readonly file: string;
  readonly text: string;
}

/** The files of a review as bytes: what the worker opens, and what another one opens again after a stop. */
export interface ReviewFiles {
  /** report.json. */
  readonly report: Uint8Array;
  /** facts.json; null: there is none, so nothing can be tried. */
  readonly facts: Uint8Array | null;
}

/** By the name of the request. Everything crosses by structured clone. */
export interface Requests {
  /** The whole review of models that were dropped, with what was dropped beside them. */
  readonly check: {
    readonly asks: {
      readonly models: readonly DroppedFile[];
      readonly brief: DroppedFile | null;
      /** A report.json: its keys and tags are carried over. */
      readonly previous: DroppedFile | null;
    };
    readonly answers: {
      readonly report: Report;
      /** geometry.glb. */
      readonly geometry: ArrayBuffer;
      readonly files: ReviewFiles;
    };
  };
  /** Opens what a review wrote. */
  readonly open: {
    readonly asks: ReviewFiles;
    readonly answers: { readonly report: Report };
  };
  /** What can be tried; null: nothing, for want of facts. By itself, since rules take longer to load than a report. */
  readonly choosable: {
    readonly asks: Readonly<Record<string, never>>;
    readonly answers: { readonly choosable: Choosable | null };
  };
  readonly try: {
    readonly asks: { readonly assumptions: readonly Assumption[] };
    readonly answers: { readonly report: Report };
  };
  /** The brief with what was decided here written into it, as a file. */
  readonly brief: {
    readonly asks: Unsaved & {
      readonly assumptions: readonly Assumption[];
      /** Of today, `2026-03-02`. */
      readonly day: string;
      /** What was written of it here before; null: it is as it was reviewed. */
      readonly written: BriefFile | null;
    };
    readonly answers: BriefFile;
  };
  /** findings.bcf of the open review with what is not saved yet in it. */
  readonly bcf: {
    readonly asks: Unsaved & {
      /** geometry.glb, for the pictures; null: topics without pictures. */
      readonly geometry: ArrayBuffer | null;
      /** The BCF file that came back: what people said in it stays. */
      readonly previous: Uint8Array | null;
    };
    readonly answers: { readonly bytes: Uint8Array; readonly topics: number };
  };
  /** A BCF file that came back: the report with what people said of its findings. */
  readonly bcfIn: {
    readonly asks: {
      readonly file: DroppedFile;
      /** What was granted and said here: where that comes back in the file it is not doubled. */
      readonly entries: Unsaved;
    };
    readonly answers: {
      readonly report: Report;
      /** Topics that speak of a finding in this report, and all others. */
      readonly topics: number;
      readonly others: number;
    };
  };
}
export type RequestName = keyof Requests;
export type Asks<N extends RequestName> = Requests[N]['asks'];
export type Answers<N extends RequestName> = Requests[N]['answers'];

export type Question = {
  [N in RequestName]: { readonly id: number; readonly name: N; readonly asks: Asks<N> };
}[RequestName];

export type Message =
  | { readonly id: number; readonly progress: Progress }
  | { readonly id: number; readonly answers: unknown }
  /** One clear line: what, where, what to do. */
  | { readonly id: number; readonly fault: string };
