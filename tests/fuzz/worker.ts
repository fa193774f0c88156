/** Does runs in a thread, one after the other. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Shares } from './buildings.js';
import { runOne, type Task } from './run-one.js';

parentPort!.on('message', async (task: Task) => {
  parentPort!.postMessage(await runOne(task, workerData as Shares));
});
