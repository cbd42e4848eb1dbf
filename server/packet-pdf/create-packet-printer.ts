import { startTurnThread } from '#server/start-turn-thread.ts';
import type { FromThread, ToThread } from './messages.ts';
import type { PrintRequest } from './print-request.ts';

export interface PacketPrinter {
  /** One at a time, in the order they are asked for, off the main thread. */
  print(request: PrintRequest): Promise<Uint8Array>;
  close(): Promise<void>;
}

const MOST_HEAP_MIB = 512;

export function createPacketPrinter(): PacketPrinter {
  const thread = startTurnThread<ToThread, FromThread>({
    file: new URL('./thread.mjs', import.meta.url),
    name: 'packet printing',
    mostHeapMib: MOST_HEAP_MIB,
  });
  const printOnce = async (request: PrintRequest): Promise<Uint8Array> => {
    const answer = await thread.run({ request }, { signal: new AbortController().signal });
    if (answer === null) throw new Error('A packet was not printed: its request ended before its turn.');
    if (answer.kind === 'failed') throw new Error(answer.message);
    return answer.pdf;
  };
  return {
    async print(request) {
      try {
        return await printOnce(request);
      } catch (error) {
        const emptied = request.photos.map((photo) => ({ ...photo, bytes: new Uint8Array() }));
        if (request.photos.length === 0) throw error;
        // A damaged photo breaks off the whole: the packet matters more, and names what it leaves out.
        return await printOnce({ ...request, photos: emptied });
      }
    },
    close: () => thread.stop(),
  };
}
