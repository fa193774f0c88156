/** Progress on stderr: a bar on a terminal, plain lines elsewhere, nothing when asked to be quiet. */
import type { ErrorOutput } from './streams.js';

export interface Progress {
  /** @param share 0 to 1 of this stage */
  report(stage: string, share: number): void;
  /** Clears the bar, so that the next line starts on a clean one. */
  end(): void;
}

const BAR_WIDTH = 24;

export function startProgress(stream: ErrorOutput, quiet: boolean): Progress {
  if (quiet) return { report: () => {}, end: () => {} };
  if (stream.redraw) return bar(stream.redraw);
  let last = '';
  return {
    report(stage) {
      if (stage !== last) stream.write(`${stage}\n`);
      last = stage;
    },
    end: () => {},
  };
}

function bar(redraw: (line: string) => void): Progress {
  let drawn = '';
  return {
    report(stage, share) {
      const filled = Math.round(share * BAR_WIDTH);
      const line = `[${'='.repeat(filled)}${' '.repeat(BAR_WIDTH - filled)}] ${stage}`;
      if (line !== drawn) redraw(line);
      drawn = line;
    },
    end() {
      if (drawn !== '') redraw('');
      drawn = '';
    },
  };
}
