import { useQuery } from '@tanstack/react-query';
import type { TrendReply } from '#server/contract/analysis.ts';
import type { LivesReply } from '#server/contract/lives.ts';
import { sendJson } from './send-json.ts';

export interface TrendAsk {
  x: readonly number[];
  y: readonly number[];
  confidence: number;
}
export interface LivesAsk {
  lives: readonly object[];
  confidence: number;
}

/** One answer for one table and choice, which `key` names: the rows themselves would be a key of megabytes. */
const options = { staleTime: Number.POSITIVE_INFINITY, gcTime: 60_000 };

/** The statistics of a series; null asks nothing. */
export const useTrend = (key: string, ask: TrendAsk | null) =>
  useQuery({
    queryKey: ['analysis', 'trend', key],
    queryFn: ({ signal }) => sendJson<TrendReply>('POST', '/analysis/trend', ask, signal),
    enabled: ask !== null,
    ...options,
  });

/** The statistics of life data. */
export const useLivesOf = (key: string, ask: LivesAsk | null) =>
  useQuery({
    queryKey: ['analysis', 'lives', key],
    queryFn: ({ signal }) => sendJson<LivesReply>('POST', '/analysis/lives', ask, signal),
    enabled: ask !== null,
    ...options,
  });
