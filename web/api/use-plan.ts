import { type QueryClient, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Booking, BookingMove, BookingRequest, BookingsReply } from '#server/contract/bookings.ts';
import type { Plan, PlanAssignment, PlanRequest } from '#server/contract/plan.ts';
import { ProblemError } from './problem-error.ts';
import { sendJson } from './send-json.ts';
import { bookingsChange, lookAtBookingsAgain, showBooking } from './use-bookings.ts';
import { useWordUnits } from './use-word-units.ts';

/** A proposed inspection as the planner has it in hand: perhaps moved, ticked or not, perhaps refused. */
export interface Draft extends PlanAssignment {
  ticked: boolean;
  moved: boolean;
  refused: string | null;
}

/** A proposal that nobody has accepted or dropped yet. */
export interface Proposal {
  plan: Plan;
  drafts: readonly Draft[];
  /** how many of it were booked */
  booked: number;
}

const proposalKey = ['proposal'] as const;

/** The proposal in hand stays while the planner looks at a vehicle, and ends with the page or the session. */
export function useProposal() {
  const client = useQueryClient();
  const { data } = useQuery<Proposal | null>({
    queryKey: proposalKey,
    queryFn: () => null,
    enabled: false,
    initialData: null,
    gcTime: Number.POSITIVE_INFINITY,
  });
  const change = (next: (proposal: Proposal) => Proposal | null) =>
    client.setQueryData(proposalKey, (before: Proposal | null | undefined) =>
      before == null ? null : next(before),
    );
  return {
    proposal: data,
    drop: () => change(() => null),
    changeDrafts: (next: (draft: Draft) => Draft) =>
      change((proposal) => ({ ...proposal, drafts: proposal.drafts.map(next) })),
  };
}

export type PlanAsk = Omit<PlanRequest, 'units'>;

export function usePropose() {
  const client = useQueryClient();
  const units = useWordUnits();
  return useMutation({
    mutationFn: (ask: PlanAsk) => sendJson<Plan>('POST', '/plan', { ...ask, units }),
    onSuccess: (plan) =>
      client.setQueryData(proposalKey, {
        plan,
        drafts: plan.assignments.map((one) => ({ ...one, ticked: true, moved: false, refused: null })),
        booked: 0,
      } satisfies Proposal),
  });
}

/** What became of each vehicle of a proposal that was accepted. */
export interface Settled {
  booked: readonly string[];
  refused: readonly { vehicle: string; message: string }[];
}

/** Books what is ticked. What is refused stays in the proposal with its reason. */
export function useAccept() {
  const client = useQueryClient();
  return useMutation({
    ...bookingsChange,
    mutationFn: async (drafts: readonly Draft[]): Promise<Settled> => {
      const given: Settled[] = [];
      // At once: what comes after may break off.
      const settle = (settled: Settled) => {
        given.push(settled);
        client.setQueryData(proposalKey, (before: Proposal | null | undefined) =>
          before == null ? null : settleDrafts(before, settled),
        );
      };
      // A vehicle whose booking waits for a day has it moved; it cannot have another one.
      for (const draft of drafts)
        if (draft.put_off !== null) settle(await giveDay(client, draft, draft.put_off));
      const rest = drafts.filter(({ put_off }) => put_off === null);
      if (rest.length > 0) settle(await bookRest(client, rest));
      return { booked: given.flatMap((one) => one.booked), refused: given.flatMap((one) => one.refused) };
    },
    onSettled: (_data, _error, drafts) =>
      lookAtBookingsAgain(
        client,
        drafts.map(({ vehicle }) => vehicle),
      ),
  });
}

const toPlace = ({ depot, day, bay, from, hours }: Draft) => ({ depot, day, bay, from, hours });

async function giveDay(
  client: QueryClient,
  draft: Draft,
  { id, version }: { id: number; version: number },
): Promise<Settled> {
  try {
    const move: BookingMove = { version, ...toPlace(draft) };
    showBooking(client, await sendJson<Booking>('PATCH', `/bookings/${id}`, move));
    return { booked: [draft.vehicle], refused: [] };
  } catch (error) {
    if (!(error instanceof ProblemError) || error.status === 0 || error.status >= 500) throw error;
    return { booked: [], refused: [{ vehicle: draft.vehicle, message: error.detail }] };
  }
}

async function bookRest(client: QueryClient, drafts: readonly Draft[]): Promise<Settled> {
  const requests = drafts.map((draft): BookingRequest => ({ vehicle: draft.vehicle, ...toPlace(draft) }));
  const { booked, refused } = await sendJson<BookingsReply>('POST', '/bookings', requests);
  for (const one of booked) showBooking(client, one);
  return { booked: booked.map(({ vehicle }) => vehicle), refused };
}

export function settleDrafts(proposal: Proposal, { booked, refused }: Settled): Proposal {
  const has = new Set(booked);
  const why = new Map(refused.map(({ vehicle, message }) => [vehicle, message]));
  return {
    ...proposal,
    booked: proposal.booked + has.size,
    drafts: proposal.drafts
      .filter(({ vehicle }) => !has.has(vehicle))
      .map((draft) => {
        const message = why.get(draft.vehicle);
        return message === undefined ? draft : { ...draft, refused: message, ticked: false };
      }),
  };
}
