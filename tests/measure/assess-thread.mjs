import { parentPort, workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

register();
const { assessBatch } = await import('./assess-batch.ts');
parentPort?.postMessage(assessBatch(workerData));
