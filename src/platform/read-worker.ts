/** Reads one file in a thread of its own, which is thrown away with web-ifc's heap and whatever a bad file did to it. */
import { parentPort, workerData } from 'node:worker_threads';
import { answerTo } from '../read/answer-task.js';
import type { ReadTask } from '../read/read-task.js';

// What it throws becomes the worker's error event.
parentPort!.postMessage(await answerTo(workerData as ReadTask));
