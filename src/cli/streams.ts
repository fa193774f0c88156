import type { Writable } from 'node:stream';

/** Results go to `out`, progress and the one line of an error to `err`. */
export interface Streams {
  readonly out: Writable;
  readonly err: Writable & { readonly isTTY?: boolean };
}
