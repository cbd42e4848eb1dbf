import { useEffect, useRef, useState } from 'react';
import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import type { WorkbenchKind } from '#server/contract/workbench-words.ts';
import type { Preview, Source, TakenRows } from './reading/messages.ts';
import { type Reader, startReader } from './reading/start-reader.ts';
import type { ReadOptions } from './reading/table.ts';

type Step<T> =
  | { state: 'none' | 'waiting' }
  | { state: 'done'; value: T }
  | { state: 'failed'; words: string };

const none = { state: 'none' } as const;
const waiting = { state: 'waiting' } as const;
const wordsOf = (error: unknown): string =>
  error instanceof Error ? error.message : 'The table could not be read.';

interface Ask extends ReadOptions {
  kind?: WorkbenchKind | undefined;
}

/** Reads a table beside the page; `choose` makes of what was found the choice of columns whose rows are taken. */
export function useTable(
  source: Source | null,
  { hasHeader, decimal, kind }: Ask,
  choose: (preview: Preview) => WorkbenchChoice | null,
) {
  const reader = useRef<Reader | null>(null);
  const [read, setRead] = useState<Step<Preview>>(none);
  const [rows, setRows] = useState<Step<TakenRows> & { key?: string }>(none);

  useEffect(
    () => () => {
      reader.current?.stop();
      reader.current = null;
    },
    [],
  );

  useEffect(() => {
    setRows(none);
    if (source === null) return setRead(none);
    let isGone = false;
    setRead(waiting);
    reader.current ??= startReader();
    reader.current.read({ source, hasHeader, decimal, kind }).then(
      (value) => !isGone && setRead({ state: 'done', value }),
      (error: unknown) => !isGone && setRead({ state: 'failed', words: wordsOf(error) }),
    );
    return () => {
      isGone = true;
    };
  }, [source, hasHeader, decimal, kind]);

  const preview = read.state === 'done' ? read.value : null;
  const choice = preview === null ? null : choose(preview);
  const key = choice === null ? null : JSON.stringify(choice);
  useEffect(() => {
    if (key === null || preview === null) return setRows(none);
    let isGone = false;
    setRows(waiting);
    reader.current?.take(JSON.parse(key) as WorkbenchChoice).then(
      (value) => !isGone && setRows({ state: 'done', value, key }),
      (error: unknown) => !isGone && setRows({ state: 'failed', words: wordsOf(error) }),
    );
    return () => {
      isGone = true;
    };
  }, [key, preview]);

  return { read, preview, choice, rows };
}
