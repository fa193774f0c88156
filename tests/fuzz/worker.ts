/** Does runs in a thread, one after the other. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Shares } from './buildings.js';
import { runOne } from './run-one.js';

parentPort!.on('message', async (seed: number) => {
  parentPort!.postMessage(await runOne(seed, workerData as Shares));
});
