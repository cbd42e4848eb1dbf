import { parentPort } from 'node:worker_threads';
import { makePacketPdf } from './make-packet-pdf.ts';
import type { FromThread, ToThread } from './messages.ts';

parentPort?.on('message', ({ request }: ToThread) => {
  makePacketPdf(request).then(
    (pdf) => parentPort?.postMessage({ kind: 'made', pdf } satisfies FromThread),
    (error: unknown) =>
      parentPort?.postMessage({
        kind: 'failed',
        message: error instanceof Error ? (error.stack ?? error.message) : String(error),
      } satisfies FromThread),
  );
});
