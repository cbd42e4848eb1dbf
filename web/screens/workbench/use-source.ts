import { useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import { useWorkbenchSet } from '#web/api/use-workbench.ts';
import { findExample } from './examples/examples.ts';
import type { Source } from './reading/messages.ts';
import type { WorkbenchSearch } from './workbench-search.ts';

/** The table that is shown: an example or a kept one where the address names it, else one's own. */
export function useSource({ example: exampleId, set }: WorkbenchSearch) {
  const [own, setOwn] = useState<Source | null>(null);
  const example = findExample(exampleId);
  const text = useQuery({
    queryKey: ['workbench-example', example?.id],
    queryFn: async () => (await example?.load()) ?? '',
    enabled: example !== undefined,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const setId = example === undefined ? set : undefined;
  const kept = useWorkbenchSet(setId);
  const source = useMemo<Source | null>(() => {
    if (example !== undefined)
      return text.data === undefined ? null : { name: example.name, text: text.data };
    if (setId !== undefined)
      return kept.data === undefined ? null : { name: kept.data.name, text: kept.data.text };
    return own;
  }, [example, text.data, setId, kept.data, own]);
  const isOwn = example === undefined && setId === undefined;
  return { source, own, setOwn, isOwn, example, kept: setId === undefined ? null : kept, failed: text.error };
}
