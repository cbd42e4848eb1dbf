import { CommandError } from '#server/cli/command-error.ts';
import { openOwnContext } from '#server/cli/open-own-context.ts';
import type { Look } from '#server/contract/looks.ts';
import type { Mapping } from '#server/contract/mappings.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { guardBody } from '#server/services/intake/guard-body.ts';
import { lookAtBody } from '#server/services/intake/look/look-at-body.ts';
import { receiveDelivery } from '#server/services/intake/receive-delivery.ts';
import { findMapping, saveMapping } from '#server/services/mappings/mappings.ts';
import type { ImportFile } from './open-import-file.ts';
import { givenWith, type ReadOptions } from './read-options.ts';
import { askLook, putMapping, sendFile } from './send-file.ts';

export interface Imported {
  reply: DeliveryReply;
  /** why the file was not read to its end; null where it was */
  fault: string | null;
}

/** Where files go: storage itself, or a server that runs. */
export interface ImportTarget {
  take(file: ImportFile, body: AsyncIterable<Uint8Array>): Promise<Imported>;
  /** what it would come to; nothing is stored */
  look(file: ImportFile, body: AsyncIterable<Uint8Array>): Promise<Look>;
  saveMapping(name: string, mapping: Mapping): Promise<void>;
  close(): Promise<void>;
}

export function openServer(url: string, key: string | null, options: ReadOptions): ImportTarget {
  const server = { url, key };
  return {
    take: (file, body) => sendFile(server, options, file, body),
    look: (file, body) => askLook(server, options, file, body),
    saveMapping: (name, mapping) => putMapping(server, name, mapping),
    async close() {},
  };
}

export async function openOwnStorage(options: ReadOptions): Promise<ImportTarget> {
  const { context, close } = await openOwnContext('import');
  const { mapping: name, ignoreUnknownColumns } = options;
  const findOwn = async (file: ImportFile): Promise<Mapping | null> => {
    if (name === null) return null;
    if (file.format !== 'csv')
      throw new CommandError(`--mapping is for CSV files, and ${file.name} is none.`);
    return findMapping(context, name);
  };
  return {
    async take(file, body) {
      const { reply, fault } = await receiveDelivery(context, {
        body,
        format: file.format,
        contentType: `file ${file.name}`.slice(0, 200),
        mapping: await findOwn(file),
        given: givenWith(options, file),
        file: file.name,
        gzip: file.gzip,
        limitBytes: Number.MAX_SAFE_INTEGER,
        ignoreUnknownColumns,
        idempotencyKey: null,
      });
      return { reply, fault: fault?.message ?? null };
    },
    async look(file, body) {
      const mapping = await findOwn(file);
      return lookAtBody(context, {
        chunks: guardBody(body, file.gzip, Number.MAX_SAFE_INTEGER),
        gzip: file.gzip,
        whole: true,
        format: file.format,
        given: givenWith(options, file),
        mapping: mapping === null ? null : { mapping, saved: true },
        ignoreUnknownColumns,
      });
    },
    async saveMapping(mappingName, mapping) {
      await saveMapping(context, mappingName, mapping);
    },
    close,
  };
}
