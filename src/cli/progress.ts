/** Progress on stderr: a bar on a terminal, plain lines elsewhere, nothing when asked to be quiet. */
import type { Writable } from 'node:stream';

export interface Progress {
  /** @param share 0 to 1 of this stage */
  report(stage: string, share: number): void;
  /** Clears the bar, so that the next line starts on a clean one. */
  end(): void;
}

const BAR_WIDTH = 24;

export function startProgress(stream: Writable & { readonly isTTY?: boolean }, quiet: boolean): Progress {
  if (quiet) return { report: () => {}, end: () => {} };
  if (stream.isTTY) return bar(stream);
  let last = '';
  return {
    report(stage) {
      if (stage !== last) stream.write(`${stage}\n`);
      last = stage;
    },
    end: () => {},
  };
}

function bar(stream: Writable): Progress {
  let drawn = '';
  return {
    report(stage, share) {
      const filled = Math.round(share * BAR_WIDTH);
      const line = `[${'='.repeat(filled)}${' '.repeat(BAR_WIDTH - filled)}] ${stage}`;
      if (line !== drawn) stream.write(`\r\u001b[K${line}`);
      drawn = line;
    },
    end() {
      if (drawn !== '') stream.write('\r\u001b[K');
      drawn = '';
    },
  };
}
