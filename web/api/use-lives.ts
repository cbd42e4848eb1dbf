import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { FleetLivesReply } from '#server/contract/lives.ts';
import { getJson } from './get-json.ts';
import { type Query, writeQuery } from './write-query.ts';

/** What is asked of the fleet's lives, as the address of the call has it. */
export type LivesAsk = Query;

/** Life data changes when a life ends or a vehicle drives: not between two looks. */
const staleTime = 60_000;

export const useFleetLives = (ask: LivesAsk) =>
  useQuery({
    queryKey: ['fleet-lives', ask],
    queryFn: ({ signal }) => getJson<FleetLivesReply>('/analysis/lives', ask, signal),
    placeholderData: keepPreviousData,
    staleTime,
  });

/** Where the lives themselves can be had, one a line. */
export const livesCsvAddress = (ask: LivesAsk): string => `/api${writeQuery('/analysis/lives.csv', ask)}`;
