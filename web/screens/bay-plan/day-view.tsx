import { useBayPlan } from '#web/api/use-bay-plan.ts';
import { useOwnDepots, useTodayAt } from '#web/api/use-own-depots.ts';
import { addDays, isDay } from '#web/format/days.ts';
import { formatDay } from '#web/format/format-day.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { DaySheet } from './day-sheet.tsx';
import styles from './day-view.module.css';
import type { BayPlanState } from './use-bay-plan-state.ts';

/** One day of one depot, made to be printed and hung up. */
export function DayView({ state }: { state: BayPlanState }) {
  const { search, change } = state;
  const depots = useOwnDepots();
  const depotId = search.depot ?? depots[0]?.id;
  const today = useTodayAt(depotId);
  const day = search.day ?? today;
  const { data: plan, error, isError, refetch } = useBayPlan({ depot: depotId, from: day, days: 1 });
  const depot = plan?.depots.find(({ id }) => id === depotId);
  return (
    <div className={styles.page}>
      <div className={styles.tools}>
        <Button kind="quiet" onClick={() => change({ view: undefined, day: undefined }, 'step')}>
          Back to the plan
        </Button>
        <SelectField
          label="Depot"
          value={depotId ?? ''}
          options={depots.map(({ id, name }) => ({ value: id, label: name }))}
          onChange={(id) => change({ depot: id })}
        />
        <TextField
          label="Day"
          type="date"
          value={day}
          onChange={(text) => isDay(text) && change({ day: text })}
        />
        <div className={styles.steps}>
          <Button
            aria-label={`Day before, ${formatDay(addDays(day, -1))}`}
            onClick={() => change({ day: addDays(day, -1) })}
          >
            <span aria-hidden="true">←</span>
          </Button>
          <Button
            aria-label={`Next day, ${formatDay(addDays(day, 1))}`}
            onClick={() => change({ day: addDays(day, 1) })}
          >
            <span aria-hidden="true">→</span>
          </Button>
        </div>
        <Button kind="main" disabled={depot === undefined} onClick={() => window.print()}>
          Print
        </Button>
      </div>
      {isError && plan === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {plan !== undefined && depot === undefined && <p>There is no such depot. Choose another one.</p>}
      {plan !== undefined && depot !== undefined && plan.from === day && (
        <DaySheet plan={plan} depot={depot} day={day} />
      )}
    </div>
  );
}
