import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import type { Look } from '#server/contract/looks.ts';
import type { DeliveryReply } from '#server/contract/receipts.ts';
import { storeFile, tryFile } from '#web/api/send-file.ts';
import type { Query } from '#web/api/write-query.ts';
import { askPatiently } from './ask-patiently.ts';
import type { BroughtFile } from './brought-files.ts';
import { makeKey } from './make-key.ts';

export type Fate =
  | { phase: 'waiting' }
  | { phase: 'sending'; sent: number; isTrial: boolean }
  | { phase: 'stored'; reply: DeliveryReply }
  | { phase: 'tried'; look: Look }
  | { phase: 'failed'; error: unknown; isTrial: boolean }
  | { phase: 'stopped' };

export interface Job {
  one: BroughtFile;
  format: Look['format'];
  query: Query;
  /** how it is read, in full: another reading of the same file is another delivery */
  readWith: string;
}

/** Sends files one after the other. One that fails does not stop the others; what was stopped waits to be sent again. */
export function useSending() {
  const client = useQueryClient();
  const [fates, setFates] = useState<ReadonlyMap<number, Fate>>(new Map());
  const [isBusy, setIsBusy] = useState(false);
  const stopper = useRef<AbortController | null>(null);
  const keys = useRef(new Map<string, string>());
  const put = (id: number, fate: Fate) => setFates((before) => new Map(before).set(id, fate));

  async function sendOne({ one, format, query, readWith }: Job, isTrial: boolean, signal: AbortSignal) {
    const sent = (bytes: number) => put(one.id, { phase: 'sending', sent: bytes, isTrial });
    sent(0);
    const asked = { file: one.file, format, query, onSent: sent, signal };
    const again = `${one.id} ${readWith} ${JSON.stringify(query)}`;
    const idempotencyKey = keys.current.get(again) ?? makeKey();
    keys.current.set(again, idempotencyKey);
    const ask = async (): Promise<Fate> =>
      isTrial
        ? { phase: 'tried', look: await tryFile(asked) }
        : { phase: 'stored', reply: await storeFile({ ...asked, idempotencyKey }) };
    put(one.id, await askPatiently(ask, signal, () => put(one.id, { phase: 'waiting' })).catch(toFate));

    function toFate(error: unknown): Fate {
      return signal.aborted ? { phase: 'stopped' } : { phase: 'failed', error, isTrial };
    }
  }

  return {
    fates,
    isBusy,
    forget: (id: number) => setFates((before) => new Map([...before].filter(([other]) => other !== id))),
    stop: () => stopper.current?.abort(),
    async run(jobs: readonly Job[], isTrial: boolean) {
      stopper.current = new AbortController();
      const { signal } = stopper.current;
      setIsBusy(true);
      for (const { one } of jobs) put(one.id, { phase: 'waiting' });
      for (const job of jobs) {
        if (signal.aborted) put(job.one.id, { phase: 'stopped' });
        else await sendOne(job, isTrial, signal);
      }
      setIsBusy(false);
      // What a delivery changes is asked anew; the look at the file is not.
      if (!isTrial) await client.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'look' });
    },
  };
}
