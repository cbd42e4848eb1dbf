import { openOwnContext } from '#server/cli/open-own-context.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { receiveDelivery } from '#server/services/intake/receive-delivery.ts';
import type { ImportFile } from './open-import-file.ts';
import { sendFile } from './send-file.ts';

export interface Imported {
  reply: DeliveryReply;
  /** why the file was not read to its end; null where it was */
  fault: string | null;
}

/** Where files go: storage itself, or a server that runs. */
export interface ImportTarget {
  take(file: ImportFile, body: AsyncIterable<Uint8Array>): Promise<Imported>;
  close(): Promise<void>;
}

export function openServer(url: string, key: string | null, ignoreUnknownColumns: boolean): ImportTarget {
  return {
    take: (file, body) => sendFile({ url, key, ignoreUnknownColumns }, file, body),
    async close() {},
  };
}

export async function openOwnStorage(ignoreUnknownColumns: boolean): Promise<ImportTarget> {
  const { context, close } = await openOwnContext('import');
  return {
    async take(file, body) {
      const { reply, fault } = await receiveDelivery(context, {
        body,
        format: file.format,
        contentType: `file ${file.name}`.slice(0, 200),
        mapping: null,
        given: { file: file.name.slice(0, 255) },
        file: file.name,
        gzip: file.gzip,
        limitBytes: Number.MAX_SAFE_INTEGER,
        ignoreUnknownColumns,
        idempotencyKey: null,
      });
      return { reply, fault: fault?.message ?? null };
    },
    close,
  };
}
