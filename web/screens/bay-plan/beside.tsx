import { useState } from 'react';
import type { BayPlan } from '#server/contract/bookings.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { useBooking } from '#web/api/use-bookings.ts';
import type { Proposal } from '#web/api/use-plan.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { BookingPanel } from './booking-panel.tsx';
import { CalendarAddresses } from './calendar-addresses.tsx';
import { DraftPanel } from './draft-panel.tsx';
import { Margin } from './margin.tsx';
import { NewBooking } from './new-booking.tsx';
import { findBooking } from './plan-items.ts';
import { type BayPlanSearch, closeBeside, readPlace } from './plan-search.ts';
import { ProposalPanel } from './proposal-panel.tsx';
import { UnseenNote } from './unseen-note.tsx';
import type { BayPlanState } from './use-bay-plan-state.ts';

interface Props {
  state: BayPlanState;
  plan: BayPlan;
  proposal: Proposal | null;
  canChange: boolean;
  say: (words: string) => void;
}

export const isBesideOpen = ({ open, proposed, book, place, propose, beside }: BayPlanSearch): boolean =>
  [open, proposed, book, place, propose, beside].some((one) => one !== undefined);

/** What is open beside the grid: one booking, one proposal, a form. */
export function Beside({ state, plan, proposal, canChange, say }: Props) {
  const { search, change } = state;
  const close = () => change(closeBeside);
  const { open, proposed, book, place, beside } = search;
  const draft = proposal?.drafts.find(({ vehicle }) => vehicle === proposed);
  const shown = open === undefined ? undefined : findBooking(plan, open);
  const asked = useBooking(shown === undefined ? open : undefined);
  // What is typed stays where the booking leaves the plan meanwhile.
  const [last, setLast] = useState(shown);
  if (shown !== undefined && shown !== last) setLast(shown);
  const booking = shown ?? asked.data ?? (last?.id === open ? last : undefined);
  if (open !== undefined && booking === undefined)
    return (
      <Margin key={`b${open}`} title="Booking" onClose={close}>
        {asked.isPending && <p aria-busy="true">Looking for it</p>}
        {asked.isError &&
          (asked.error instanceof ProblemError && asked.error.code === 'not_found' ? (
            <p>There is no booking {open} here.</p>
          ) : (
            <ProblemNote error={asked.error} onRetry={() => void asked.refetch()} />
          ))}
      </Margin>
    );
  if (open !== undefined && booking !== undefined)
    return (
      <Margin key={`b${open}`} title={booking.vehicle} onClose={close}>
        {booking === asked.data && <UnseenNote booking={booking} state={state} plan={plan} />}
        <BookingPanel
          booking={booking}
          state={state}
          plan={plan}
          canChange={canChange}
          say={say}
          onClose={() => change((before) => (before.open === open ? closeBeside : {}))}
        />
      </Margin>
    );
  if (draft !== undefined)
    return (
      <Margin key={`p${draft.vehicle}`} title={draft.vehicle} onClose={close}>
        <DraftPanel draft={draft} plan={plan} say={say} onBack={() => change({ beside: 'plan' })} />
      </Margin>
    );
  if (!canChange)
    return (
      <Margin key="looks" title="Not to be changed" onClose={close}>
        <p>Planner and admin book vehicles here; analysts look on.</p>
      </Margin>
    );
  if (book !== undefined || place !== undefined || beside === 'book')
    return (
      <Margin key={`new ${book} ${place}`} title="Book a vehicle" onClose={close}>
        <NewBooking
          unit={book ?? ''}
          place={place === undefined ? null : readPlace(place)}
          state={state}
          plan={plan}
          drafts={proposal?.drafts ?? []}
          say={say}
        />
      </Margin>
    );
  if (beside === 'calendars')
    return (
      <Margin key="calendars" title="Calendar addresses" onClose={close}>
        <CalendarAddresses chosen={search.depot ?? null} />
      </Margin>
    );
  return (
    <Margin
      key="plan"
      title={proposal === null || search.propose !== undefined ? 'Propose a plan' : 'Proposal'}
      onClose={close}
    >
      <ProposalPanel state={state} plan={plan} proposal={proposal} say={say} />
    </Margin>
  );
}
