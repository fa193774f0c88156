/** Reads one file in a worker of its own, which is thrown away with web-ifc's heap and whatever a bad file did to it. */
import wasm from 'web-ifc/web-ifc.wasm?url';
import { answerTo } from '../../src/read/answer-task.js';
import type { ReadAnswer, ReadTask } from '../../src/read/read-task.js';

self.onmessage = async ({ data }: MessageEvent<ReadTask>) => {
  // What is thrown in a promise reaches no one outside a worker, so it is sent.
  const answer: ReadAnswer = await answerTo(data, wasm).catch((error: unknown) => ({
    stopped: error instanceof Error ? error.message : String(error),
    element: 0,
  }));
  self.postMessage(answer);
};
