import { useState } from 'react';
import type { BayPlan } from '#server/contract/bookings.ts';
import { type Proposal, useProposal } from '#web/api/use-plan.ts';
import { formatDaySpan } from '#web/format/format-day.ts';
import { Button } from '#web/ui/button.tsx';
import { AcceptPart } from './accept-part.tsx';
import styles from './beside.module.css';
import { DraftList } from './draft-list.tsx';
import { ExtraBayDays } from './extra-bay-days.tsx';
import { LeftOut } from './left-out.tsx';
import { ProposalFigures } from './proposal-figures.tsx';
import { ProposeForm } from './propose-form.tsx';
import type { BayPlanState } from './use-bay-plan-state.ts';

interface Props {
  state: BayPlanState;
  plan: BayPlan;
  proposal: Proposal | null;
  say: (words: string) => void;
}

/** Asks for a proposal, or shows the one in hand: what must be read first, what it is worth, what can be accepted. */
export function ProposalPanel({ state, plan, proposal, say }: Props) {
  const [asksAgain, setAsksAgain] = useState(false);
  const { drop } = useProposal();
  if (proposal === null || asksAgain || state.search.propose !== undefined)
    return (
      <ProposeForm
        state={state}
        plan={plan}
        say={say}
        onProposed={() => setAsksAgain(false)}
        onLeave={
          proposal === null
            ? null
            : () => {
                setAsksAgain(false);
                state.change({ beside: 'plan' });
              }
        }
      />
    );
  const { plan: proposed, drafts, booked } = proposal;
  const hidden = drafts.filter(({ day }) => day < plan.from || day > plan.to).length;
  return (
    <>
      {proposed.warnings.length > 0 && (
        <ul className={styles.warnings} aria-label="Read first">
          {proposed.warnings.map((words) => (
            <li key={words} className={styles.warn}>
              {words}
            </li>
          ))}
        </ul>
      )}
      <p className={styles.soft}>
        {formatDaySpan(proposed.from, proposed.to)}. Nothing is booked until it is accepted.
        {booked > 0 && ` ${booked} of it ${booked === 1 ? 'is' : 'are'} booked.`}
      </p>
      <ProposalFigures plan={proposed} />
      {drafts.length === 0 ? (
        <p>
          {booked > 0
            ? 'All of it is booked.'
            : 'There is nobody to propose: no inspection is worth a bay day now.'}
        </p>
      ) : (
        <>
          <AcceptPart proposal={proposal} say={say} />
          {hidden > 0 && (
            <p className={styles.soft}>
              {hidden === 1 ? '1 lies' : `${hidden} lie`} outside the days shown.{' '}
              <Button kind="quiet" onClick={() => state.change({ from: proposed.from, days: 28 })}>
                Show four weeks
              </Button>
            </p>
          )}
          <DraftList
            to={proposed.counted_to}
            drafts={drafts}
            plan={plan}
            onOpen={(vehicle) => state.change({ proposed: vehicle }, 'step')}
          />
        </>
      )}
      <LeftOut
        rows={proposed.left_out}
        plan={plan}
        to={proposed.counted_to}
        onBook={(vehicle) => state.change({ book: vehicle }, 'step')}
      />
      <ExtraBayDays depots={proposed.depots} />
      <div className={styles.buttons}>
        <Button onClick={() => setAsksAgain(true)}>Propose anew</Button>
        <Button
          kind="quiet"
          onClick={() => {
            drop();
            say('The proposal was dropped.');
          }}
        >
          {drafts.length === 0 ? 'Put it away' : 'Drop this proposal'}
        </Button>
      </div>
    </>
  );
}
