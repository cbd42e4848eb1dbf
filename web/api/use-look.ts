import { useQuery } from '@tanstack/react-query';
import type { Look } from '#server/contract/looks.ts';
import type { Given, Mapping } from '#server/contract/mappings.ts';
import { useRested } from '#web/ui/use-rested.ts';
import { askServer } from './ask-server.ts';

/** As much of a file as a look at its beginning may have. */
export const sampleBytes = 8 * 1024 * 1024;

export interface LookSettings {
  mapping?: Mapping;
  mapping_name?: string;
  given: Given;
}

async function lookAtSample(file: File, settings: LookSettings, signal: AbortSignal): Promise<Look> {
  const whole = file.size <= sampleBytes;
  const form = new FormData();
  form.append('settings', JSON.stringify({ ...settings, whole }));
  form.append('sample', whole ? file : file.slice(0, sampleBytes), file.name);
  const response = await askServer('/readings/look', {
    method: 'POST',
    headers: { accept: 'application/json' },
    body: form,
    signal,
  });
  return (await response.json()) as Look;
}

/**
 * What the beginning of a file would come to, asked anew when what it is read with has rested; an earlier answer stays in
 * sight until the next is there. For one file: another needs another place.
 */
export function useLook(id: number, file: File, settings: LookSettings) {
  const text = JSON.stringify(settings);
  const rested = useRested(text, 300);
  const query = useQuery({
    queryKey: ['look', id, rested],
    queryFn: ({ signal }) => lookAtSample(file, JSON.parse(rested) as LookSettings, signal),
    placeholderData: (before) => before,
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 60_000,
  });
  const isOld = rested !== text || query.isPlaceholderData || query.isFetching;
  return { look: query.data ?? null, error: isOld ? null : query.error, isOld, askAgain: query.refetch };
}
