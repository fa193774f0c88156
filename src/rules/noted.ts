import type { Path } from './yaml-source.js';

/** A note where it stands in its document. */
export interface Noted {
  readonly kind: 'overlap' | 'hole' | 'unused';
  readonly path: Path;
  readonly message: string;
  /** What to do. */
  readonly remedy: string;
}
