import { parentPort, workerData } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

register();
const { assessBatch } = await import('./assess-batch.ts');
// A few first, as a worker that has run for a while has them compiled.
assessBatch({ ...workerData, vehicles: 24 });
parentPort?.once('message', () => {
  parentPort?.postMessage(assessBatch(workerData));
  parentPort?.close();
});
parentPort?.postMessage('ready');
