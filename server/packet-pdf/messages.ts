import type { PrintRequest } from './print-request.ts';

/** What the process asks of its thread: one packet at a time. */
export interface ToThread {
  request: PrintRequest;
}

export type FromThread = { kind: 'made'; pdf: Uint8Array } | { kind: 'failed'; message: string };
