import {
  keepPreviousData,
  useInfiniteQuery,
  useMutation,
  useQuery,
  useQueryClient,
} from '@tanstack/react-query';
import type { SetUpReply, VehicleInput } from '#server/contract/fleet.ts';
import type {
  Correction,
  Faults,
  FaultsQuery,
  Gateways,
  KeptLines,
  LetIn,
  LineStateChange,
  LineStateReply,
  OdometerAnswerInput,
  OdometerQuestions,
  Receipts,
  RefusedLinesQuery,
  RuleReply,
  RuleRequest,
  SetAsideShares,
  Throughput,
  ToComplete,
} from '#server/contract/intake.ts';
import type { Receipt } from '#server/contract/receipts.ts';
import type { VehicleLack } from '#server/contract/words.ts';
import { getJson } from './get-json.ts';
import { sendJson, sendOnly } from './send-json.ts';
import { useListAgain } from './use-list-again.ts';
import { vehicleKeys } from './use-vehicle.ts';
import type { Query } from './write-query.ts';

export const receiptsPageSize = 50;
const linesPageSize = 20;

/** Everything here stands under this key: what is let in changes lines, receipts and counts alike. */
const all = ['intake'] as const;

export const useReceipts = (filter: Query, offset: number) =>
  useQuery({
    queryKey: [...all, 'receipts', filter, offset],
    queryFn: ({ signal }) =>
      getJson<Receipts>('/receipts', { ...filter, offset, limit: receiptsPageSize }, signal),
    placeholderData: keepPreviousData,
    staleTime: 0,
  });

export const useReceipt = (id: string) =>
  useQuery({
    queryKey: [...all, 'receipt', id],
    queryFn: ({ signal }) => getJson<Receipt>(`/receipts/${id}`, { limit: 5 }, signal),
  });

export const useThroughput = (zone: string) =>
  useQuery({
    queryKey: [...all, 'throughput', zone],
    queryFn: ({ signal }) => getJson<Throughput>('/intake/throughput', { zone }, signal),
    refetchInterval: 60_000,
  });

export const useFaults = (query: FaultsQuery) =>
  useQuery({
    queryKey: [...all, 'faults', query],
    queryFn: ({ signal }) => getJson<Faults>('/refused', query, signal),
    placeholderData: keepPreviousData,
    staleTime: 0,
  });

export const useKeptLines = (query: Omit<RefusedLinesQuery, 'after_id' | 'limit'> | null) =>
  useInfiniteQuery({
    queryKey: [...all, 'lines', query],
    queryFn: ({ signal, pageParam }) =>
      getJson<KeptLines>(
        '/refused/lines',
        { ...query, limit: linesPageSize, ...(pageParam === 0 ? {} : { after_id: pageParam }) },
        signal,
      ),
    initialPageParam: 0,
    getNextPageParam: ({ rows }) => (rows.length < linesPageSize ? undefined : rows.at(-1)?.id),
    enabled: query !== null,
    staleTime: 0,
  });

export const useGateways = () =>
  useQuery({
    queryKey: [...all, 'gateways'],
    queryFn: ({ signal }) => getJson<Gateways>('/gateways', {}, signal),
  });

export const useSetAsideShares = () =>
  useQuery({
    queryKey: [...all, 'set-aside'],
    queryFn: ({ signal }) => getJson<SetAsideShares>('/gateways/set-aside', {}, signal),
  });

export const toCompletePageSize = 50;

export const useToComplete = (query: { lack?: VehicleLack; q?: string }, offset: number) =>
  useQuery({
    queryKey: [...all, 'vehicles', query, offset],
    queryFn: ({ signal }) =>
      getJson<ToComplete>('/intake/vehicles', { ...query, offset, limit: toCompletePageSize }, signal),
    placeholderData: keepPreviousData,
    staleTime: 0,
  });

export const useOdometerQuestions = (answered: boolean) =>
  useQuery({
    queryKey: [...all, 'odometers', answered],
    queryFn: ({ signal }) =>
      getJson<OdometerQuestions>('/odometer-questions', { answered: String(answered), limit: 100 }, signal),
    staleTime: 0,
  });

export function useCorrectLine() {
  const client = useQueryClient();
  const listAgain = useListAgain();
  return useMutation({
    mutationFn: ({ id, correction }: { id: number; correction: Correction }) =>
      sendJson<LetIn>('POST', `/refused/${id}`, correction),
    onSuccess: () => {
      void client.invalidateQueries({ queryKey: all });
      listAgain();
    },
  });
}

export function useChangeLineStates() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (change: Partial<LineStateChange> & Pick<LineStateChange, 'state'>) =>
      sendJson<LineStateReply>('POST', '/refused/state', change),
    // Not waited for: the line that asks would be gone before it could go on to the next.
    onSuccess: () => void client.invalidateQueries({ queryKey: all }),
  });
}

/** Dry it changes nothing, so nothing is asked for again. */
export function useRule() {
  const client = useQueryClient();
  const listAgain = useListAgain();
  return useMutation({
    mutationFn: (request: RuleRequest) => sendJson<RuleReply>('POST', '/refused/rule', request),
    onSuccess: (_, { dry_run: isDry }) => {
      if (isDry) return;
      void client.invalidateQueries({ queryKey: all });
      listAgain();
    },
  });
}

export function useCompleteVehicles() {
  const client = useQueryClient();
  const listAgain = useListAgain();
  return useMutation({
    mutationFn: (vehicles: readonly VehicleInput[]) => sendJson<SetUpReply>('POST', '/vehicles', vehicles),
    onSuccess: async (_, vehicles) => {
      listAgain();
      await client.invalidateQueries({ queryKey: all });
      for (const { id } of vehicles) void client.invalidateQueries({ queryKey: vehicleKeys.all(id) });
    },
  });
}

export function useAnswerOdometer() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (input: OdometerAnswerInput) => sendOnly('PUT', '/odometer-answers', input),
    onSuccess: async (_, { vehicle }) => {
      await client.invalidateQueries({ queryKey: all });
      void client.invalidateQueries({ queryKey: vehicleKeys.all(vehicle) });
    },
  });
}
