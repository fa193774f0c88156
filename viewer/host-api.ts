/**
 * What a page goes by that embeds `<ratedrun-viewer>`. Load the package's entry `ratedrun/viewer` once as a module, put the
 * element anywhere with a height, and give it a report: `src`, or models by {@link RatedrunViewerElement.openFiles}.
 *
 * @example
 * import 'ratedrun/viewer';
 * const viewer = document.querySelector('ratedrun-viewer');
 * viewer.addEventListener('ratedrun-select', ({ detail }) => highlight(detail?.elements ?? []));
 * viewer.select('K7F2-9');
 */
import type { Report } from '../src/report/schema.js';
import type { Filter } from './state/state.js';

/** An element of a model, as other programs that read the same files know it. */
export interface NamedElement {
  /** Name of the IFC file. */
  readonly file: string;
  readonly globalId: string;
}

/** What is selected. Tags and keys stay the same from revision to revision. */
export interface SelectedPlace {
  readonly penetration: { readonly tag: string; readonly key: string } | null;
  readonly finding: { readonly key: string; readonly check: string; readonly message: string } | null;
  /** What the finding or the penetration is about, the barrier last. */
  readonly elements: readonly NamedElement[];
}

/** Events of the element, none of which bubbles. */
export interface ViewerEvents {
  /** A report is open, of a folder or of models that were dropped. */
  readonly 'ratedrun-open': CustomEvent<{ readonly report: Report }>;
  /** Null: nothing is selected. */
  readonly 'ratedrun-select': CustomEvent<SelectedPlace | null>;
  readonly 'ratedrun-filter': CustomEvent<Filter>;
  /** One clear line: what, where, what to do. */
  readonly 'ratedrun-fault': CustomEvent<{ readonly message: string }>;
}

export interface RatedrunViewerElement extends HTMLElement {
  /** Attribute `src`: the folder of a report, as a URL; report.json, geometry.glb and facts.json are fetched from it. */
  src: string | null;
  /** Attribute `save-to`: a URL that takes the changed brief of that report by PUT, and answers its file name; null: it is downloaded. */
  saveTo: string | null;
  /** Attribute `theme`; left out: as the reader's system has it. */
  theme: 'light' | 'dark';
  /** What is open; null: nothing is. */
  readonly report: Report | null;
  readonly selected: SelectedPlace | null;
  /** Set in part, all else stays. */
  filter: Partial<Filter>;
  /**
   * @param name tag, key or id of a penetration, or key or id of a finding; null: nothing
   * @returns whether the report has it
   */
  select(name: string | null): boolean;
  /** Selects the first penetration of an element. @returns whether it has one */
  selectElement(globalId: string): boolean;
  /** As if they were dropped: models with their brief, or report.json with the files beside it. */
  openFiles(files: readonly File[]): Promise<void>;

  addEventListener<N extends keyof ViewerEvents>(
    name: N,
    listener: (event: ViewerEvents[N]) => void,
    options?: boolean | AddEventListenerOptions,
  ): void;
  addEventListener(
    name: string,
    listener: EventListenerOrEventListenerObject,
    options?: boolean | AddEventListenerOptions,
  ): void;
}

declare global {
  interface HTMLElementTagNameMap {
    'ratedrun-viewer': RatedrunViewerElement;
  }
}
