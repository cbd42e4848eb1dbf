import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import type { Preview, ReaderReply, ReaderRequest, ReadRequest, TakenRows } from './messages.ts';
import { TableFault } from './table.ts';

export interface Reader {
  read: (request: Omit<ReadRequest, 'id' | 'does'>) => Promise<Preview>;
  take: (choice: WorkbenchChoice) => Promise<TakenRows>;
  stop: () => void;
}

/** Reads a table beside the page, so that the page answers meanwhile. One question at a time has an answer: the newest. */
export function startReader(): Reader {
  const worker = new Worker(new URL('./table-worker.ts', import.meta.url), { type: 'module' });
  const waiting = new Map<
    number,
    { resolve: (reply: ReaderReply) => void; reject: (error: Error) => void }
  >();
  let last = 0;
  worker.onmessage = ({ data }: MessageEvent<ReaderReply>) => {
    waiting.get(data.id)?.resolve(data);
    waiting.delete(data.id);
  };
  worker.onerror = () => {
    for (const { reject } of waiting.values())
      reject(new TableFault('The part that reads tables could not be loaded. Reload the page.'));
    waiting.clear();
  };
  const ask = async (request: Omit<ReaderRequest, 'id'>): Promise<ReaderReply> => {
    const id = ++last;
    const reply = await new Promise<ReaderReply>((resolve, reject) => {
      waiting.set(id, { resolve, reject });
      worker.postMessage({ ...request, id });
    });
    if ('fault' in reply) throw new TableFault(reply.fault);
    return reply;
  };
  return {
    read: async (request) => {
      const reply = await ask({ ...request, does: 'read' } as Omit<ReaderRequest, 'id'>);
      if (!('preview' in reply)) throw new TableFault('The table was not read.');
      return reply.preview;
    },
    take: async (choice) => {
      const reply = await ask({ does: 'take', choice } as Omit<ReaderRequest, 'id'>);
      if (!('rows' in reply)) throw new TableFault('The rows were not taken.');
      return reply.rows;
    },
    stop: () => worker.terminate(),
  };
}
