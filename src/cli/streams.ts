/** What commands write to. Texts of models can't steer the terminal that shows them: this is the one place that sees to it. */
import type { Writable } from 'node:stream';
import { printable } from '../words/text.js';

export interface Output {
  /** Text without what a terminal would obey; bytes as they are: files that were written as outputs. */
  write(lines: string | Uint8Array): void;
}

/** A line that is drawn over, again and again. */
export interface ErrorOutput extends Output {
  /** Undefined where it is no terminal: plain lines have to do there. */
  readonly redraw?: ((line: string) => void) | undefined;
}

/** Results go to `out`, progress and the one line of an error to `err`. */
export interface Streams {
  readonly out: Output;
  readonly err: ErrorOutput;
}

export interface ProcessStreams {
  readonly out: Writable;
  readonly err: Writable & { readonly isTTY?: boolean };
}

const TO_LINE_START_AND_CLEAR = '\r\u001b[K';

export function streamsOf({ out, err }: ProcessStreams): Streams {
  return {
    out: outputTo(out),
    err: {
      ...outputTo(err),
      redraw: err.isTTY
        ? (line) => void err.write(`${TO_LINE_START_AND_CLEAR}${printable(line).replaceAll('\n', ' ')}`)
        : undefined,
    },
  };
}

const outputTo = (stream: Writable): Output => ({
  write: (lines) => void stream.write(typeof lines === 'string' ? printable(lines) : lines),
});
