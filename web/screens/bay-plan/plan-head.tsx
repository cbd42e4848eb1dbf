import type { BayPlan } from '#server/contract/bookings.ts';
import { bookingsFileAddress } from '#web/api/use-bay-plan.ts';
import { useOwnDepots } from '#web/api/use-own-depots.ts';
import { useProposal } from '#web/api/use-plan.ts';
import { addDays, findMonday } from '#web/format/days.ts';
import { formatDaySpan } from '#web/format/format-day.ts';
import { Button } from '#web/ui/button.tsx';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import styles from './plan-head.module.css';
import type { BayPlanState } from './use-bay-plan-state.ts';

interface Props {
  state: BayPlanState;
  plan: BayPlan | null;
  canChange: boolean;
}

const weeks = [1, 2, 3, 4].map((count) => ({
  value: String(count * 7),
  label: String(count),
  spoken: count === 1 ? '1 week' : `${count} weeks`,
}));

/** Which days of which depots are shown, and what can be begun here. */
export function PlanHead({ state, plan, canChange }: Props) {
  const { search, ask, change } = state;
  const depots = useOwnDepots();
  const { proposal } = useProposal();
  const to = addDays(ask.from, ask.days - 1);
  const today = plan?.depots[0]?.today;
  const step = Math.min(ask.days, 7);
  return (
    <header className={styles.head}>
      <div className={styles.title}>
        <h1>Bay plan</h1>
        <p className={styles.span}>{formatDaySpan(ask.from, to)}</p>
        {canChange && (
          <div className={styles.begin}>
            <Button
              kind="main"
              aria-expanded={search.beside === 'plan'}
              onClick={() => change({ beside: 'plan' }, 'step')}
            >
              {proposal === null ? 'Propose a plan' : 'Show the proposal'}
            </Button>
            <Button
              aria-expanded={search.beside === 'book'}
              onClick={() => change({ beside: 'book' }, 'step')}
            >
              Book a vehicle
            </Button>
          </div>
        )}
      </div>
      <div className={styles.picks}>
        <div className={styles.steps}>
          <Button aria-label="A week earlier" onClick={() => change({ from: addDays(ask.from, -step) })}>
            <span aria-hidden="true">←</span>
          </Button>
          <Button
            disabled={today !== undefined && ask.from === findMonday(today)}
            onClick={() => change({ from: undefined })}
          >
            Today
          </Button>
          <Button aria-label="A week later" onClick={() => change({ from: addDays(ask.from, step) })}>
            <span aria-hidden="true">→</span>
          </Button>
        </div>
        <div className={styles.weeks}>
          <ChoiceGroup
            legend="Weeks"
            name="weeks"
            options={weeks}
            value={String(ask.days)}
            onChoose={(days) => change({ days: Number(days) })}
          />
        </div>
        <div className={styles.depot}>
          <SelectField
            label="Depot"
            value={search.depot ?? ''}
            options={[
              { value: '', label: 'All depots' },
              ...depots.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            onChange={(depot) => change({ depot: depot === '' ? undefined : depot })}
          />
        </div>
        <div className={styles.links}>
          {plan?.depots[0] !== undefined && (
            <Button
              kind="quiet"
              onClick={() =>
                change(
                  { view: 'day', depot: search.depot ?? plan.depots[0]?.id, day: plan.depots[0]?.today },
                  'step',
                )
              }
            >
              Day to print
            </Button>
          )}
          <a
            className={styles.file}
            href={bookingsFileAddress({ depot: search.depot, from: ask.from, to })}
            download={`bookings-${ask.from}.csv`}
          >
            Download CSV
          </a>
          {canChange && (
            <Button
              kind="quiet"
              aria-expanded={search.beside === 'calendars'}
              onClick={() => change({ beside: 'calendars' }, 'step')}
            >
              Calendar addresses
            </Button>
          )}
        </div>
      </div>
    </header>
  );
}
