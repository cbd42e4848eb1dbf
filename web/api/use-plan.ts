import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { BookingRequest, BookingsReply } from '#server/contract/bookings.ts';
import type { Plan, PlanAssignment, PlanRequest } from '#server/contract/plan.ts';
import { sendJson } from './send-json.ts';
import { useBook } from './use-bookings.ts';
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

/** Books what is ticked. What is refused stays in the proposal with its reason. */
export function useAccept() {
  const client = useQueryClient();
  const book = useBook();
  const accept = async (drafts: readonly Draft[]): Promise<BookingsReply> => {
    const reply = await book.mutateAsync(drafts.map(toRequest));
    client.setQueryData(proposalKey, (before: Proposal | null | undefined) =>
      before == null ? null : settleDrafts(before, drafts, reply),
    );
    return reply;
  };
  return { accept, isPending: book.isPending, error: book.error };
}

const toRequest = ({ vehicle, depot, day, bay, from, hours }: Draft): BookingRequest => ({
  vehicle,
  depot,
  day,
  bay,
  from,
  hours,
});

export function settleDrafts(
  proposal: Proposal,
  sent: readonly Pick<Draft, 'vehicle'>[],
  reply: BookingsReply,
): Proposal {
  const booked = new Set(reply.booked.map(({ vehicle }) => vehicle));
  const refused = new Map(reply.refused.map(({ line, message }) => [sent[line - 1]?.vehicle, message]));
  return {
    ...proposal,
    booked: proposal.booked + booked.size,
    drafts: proposal.drafts
      .filter(({ vehicle }) => !booked.has(vehicle))
      .map((draft) => {
        const message = refused.get(draft.vehicle);
        return message === undefined ? draft : { ...draft, refused: message, ticked: false };
      }),
  };
}
