import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { BayPlan, UncoveredHold } from '#server/contract/bookings.ts';
import type { Draft, Proposal } from '#web/api/use-plan.ts';
import { formatWeek } from '#web/format/format-date.ts';
import { formatDay } from '#web/format/format-day.ts';
import { Button } from '#web/ui/button.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import styles from './holds-band.module.css';
import type { BayPlanState } from './use-bay-plan-state.ts';

interface Props {
  plan: BayPlan;
  proposal: Proposal | null;
  canChange: boolean;
  change: BayPlanState['change'];
}

const mostShown = 8;

/** Vehicles that must not go out before inspection and that no day waits for: the first thing on the screen. */
export function HoldsBand({ plan, proposal, canChange, change }: Props) {
  const [isAll, setAll] = useState(false);
  const holds = plan.uncovered_holds;
  if (holds.length === 0) return null;
  const shown = isAll ? holds : holds.slice(0, mostShown);
  const drafts = new Map(proposal?.drafts.map((draft) => [draft.vehicle, draft]));
  return (
    <section className={styles.band} aria-labelledby="holds-title">
      <h2 id="holds-title">
        <GradeMark grade="hold" withWord={false} />
        {holds.length === 1 ? '1 vehicle on hold has no day' : `${holds.length} vehicles on hold have no day`}
        <span className={styles.meaning}>Not to be dispatched before inspection.</span>
      </h2>
      <ul className={styles.list}>
        {shown.map((hold) => (
          <li key={hold.vehicle} className={styles.hold}>
            <p>
              <Link to="/vehicles/$vehicle" params={{ vehicle: hold.vehicle }} className={styles.unit}>
                {hold.vehicle}
              </Link>
              <span className={styles.facts}>{sayHold(hold, plan, drafts.get(hold.vehicle))}</span>
            </p>
            {canChange && (
              <Button
                kind="grave"
                aria-label={`Find a day for ${hold.vehicle}`}
                onClick={() =>
                  change(hold.booking === null ? { book: hold.vehicle } : { open: hold.booking.id }, 'step')
                }
              >
                Find a day
              </Button>
            )}
          </li>
        ))}
      </ul>
      {holds.length > mostShown && (
        <Button kind="quiet" aria-expanded={isAll} onClick={() => setAll(!isAll)}>
          {isAll ? 'Show fewer' : `Show all ${holds.length}`}
        </Button>
      )}
    </section>
  );
}

const keepTogether = (words: string): string => words.replaceAll(' ', '\u00a0');

function sayHold(hold: UncoveredHold, plan: BayPlan, draft: Draft | undefined): string {
  const depot = plan.depots.find(({ id }) => id === hold.depot)?.name ?? hold.depot ?? 'no depot';
  const parts = [depot];
  if (hold.since !== null) parts.push(keepTogether(`since ${formatWeek(hold.since.slice(0, 10))}`));
  if (hold.booking?.state === 'put_off') parts.push('put off');
  if (hold.booking?.past === true) parts.push('its booking is over, not closed');
  if (hold.why_not !== null) parts.push('its booking no longer fits');
  if (hold.reason !== null && hold.reason !== '') parts.push(`“${hold.reason}”`);
  if (draft !== undefined) parts.push(`proposed for ${keepTogether(formatDay(draft.day))}`);
  return parts.join(' · ');
}
