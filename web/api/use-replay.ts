import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { z } from 'zod';
import type { Ranking } from '#server/contract/ranking.ts';
import type { Replay, ReplayList, replayRequest } from '#server/contract/replay.ts';
import { getJson } from './get-json.ts';
import { sendJson, sendOnly } from './send-json.ts';

/** As it is sent: what is left out is as usual. */
export type ReplayQuestion = z.input<typeof replayRequest>;

const askAgainMs = 1000;
const listKey = ['replays'] as const;
const oneKey = (id: number) => ['replay', id] as const;

export const isUnderWay = ({ state }: Pick<Replay, 'state'>): boolean =>
  state === 'waiting' || state === 'running';

export const replayCsvAddress = (id: number, table: 'came' | 'needless'): string =>
  `/api/analysis/replays/${id}/${table}.csv`;

/** The newest first; asked again while one of them is under way. */
export const useReplays = () =>
  useQuery({
    queryKey: listKey,
    queryFn: ({ signal }) => getJson<ReplayList>('/analysis/replays', {}, signal),
    refetchInterval: ({ state }) => (state.data?.replays.some(isUnderWay) ? 5 * askAgainMs : false),
  });

/** One replay, each second until it has ended; null asks nothing. */
export const useReplay = (id: number | null) =>
  useQuery({
    queryKey: oneKey(id ?? 0),
    queryFn: ({ signal }) => getJson<Replay>(`/analysis/replays/${id}`, {}, signal),
    enabled: id !== null,
    refetchInterval: ({ state }) => (state.data !== undefined && isUnderWay(state.data) ? askAgainMs : false),
    // What has ended does not change.
    staleTime: ({ state }) => (state.data !== undefined && !isUnderWay(state.data) ? 600_000 : 0),
  });

export function useStartReplay() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (question: ReplayQuestion) => sendJson<Replay>('POST', '/analysis/replay?wait=0', question),
    onSuccess: (started) => {
      client.setQueryData(oneKey(started.id), started);
      void client.invalidateQueries({ queryKey: listKey });
    },
  });
}

/** Cancels one that is under way, forgets one that has ended. */
export function useDropReplay() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: number) => sendOnly('DELETE', `/analysis/replays/${id}`),
    onSettled: (_answer, _error, id) =>
      Promise.all([
        client.invalidateQueries({ queryKey: listKey }),
        client.invalidateQueries({ queryKey: oneKey(id) }),
      ]),
  });
}

/** Up to when the fleet is known: the last assessment. */
export const useKnownUntil = () =>
  useQuery({
    queryKey: ['assessed-at'],
    queryFn: async ({ signal }) => (await getJson<Ranking>('/ranking', { limit: 1 }, signal)).as_of,
  });
