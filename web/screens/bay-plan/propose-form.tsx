import { type FormEvent, useMemo, useState } from 'react';
import type { BayPlan } from '#server/contract/bookings.ts';
import type { Plan } from '#server/contract/plan.ts';
import { useOwnDepots } from '#web/api/use-own-depots.ts';
import { usePropose } from '#web/api/use-plan.ts';
import { countDays, findMonday } from '#web/format/days.ts';
import { Button } from '#web/ui/button.tsx';
import { ChoiceLine, ChoiceLines } from '#web/ui/choice-lines.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { readUnits } from '#web/ui/kept-units.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './beside.module.css';
import { ChosenVehicles } from './chosen-vehicles.tsx';
import type { BayPlanPatch } from './plan-search.ts';
import type { BayPlanState } from './use-bay-plan-state.ts';

interface Props {
  state: BayPlanState;
  plan: BayPlan;
  say: (words: string) => void;
  onProposed: () => void;
  onLeave: (() => void) | null;
}

const spans = [7, 14, 21, 28].map((days) => ({
  value: String(days),
  label: days === 7 ? '1 week' : `${days / 7} weeks`,
}));

/** Which depots and which days a proposal is for. */
export function ProposeForm({ state, plan, say, onProposed, onLeave }: Props) {
  const propose = usePropose();
  const depots = useOwnDepots();
  const [left, setLeft] = useState<ReadonlySet<string>>(
    () =>
      new Set(
        state.search.depot === undefined
          ? []
          : depots.map(({ id }) => id).filter((id) => id !== state.search.depot),
      ),
  );
  const [from, setFrom] = useState(plan.depots[0]?.today ?? plan.from);
  const [days, setDays] = useState('14');
  const chosen = depots.filter(({ id }) => !left.has(id));
  const vehicles = useMemo(() => readUnits(state.search.propose), [state.search.propose]);
  const toggle = (id: string) => {
    const next = new Set(left);
    if (!next.delete(id)) next.add(id);
    setLeft(next);
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    propose.mutate(
      {
        days: Number(days),
        ...(chosen.length === depots.length ? {} : { depots: chosen.map(({ id }) => id) }),
        ...(from === '' ? {} : { from }),
        ...(vehicles === null || vehicles.length === 0 ? {} : { vehicles }),
      },
      {
        onSuccess: (proposed) => {
          const count = proposed.assignments.length;
          say(
            `${count === 1 ? '1 inspection' : `${count} inspections`} proposed. ${proposed.warnings.join(' ')}`,
          );
          state.change({ ...showAll(plan, proposed, chosen.length === 1), beside: 'plan' });
          onProposed();
        },
      },
    );
  };
  return (
    <form
      className={styles.form}
      onSubmit={submit}
      aria-label="Propose a plan"
      aria-busy={propose.isPending}
      noValidate
    >
      <p className={styles.soft}>
        Gives bay days to the vehicles whose inspection avoids most, within the bays, hours and bookings that
        there are. Nothing is booked until you accept it.
      </p>
      {state.search.propose !== undefined && <ChosenVehicles vehicles={vehicles} />}
      {depots.length > 1 && (
        <>
          <ChoiceLines legend="Depots">
            <div className={styles.ticks}>
              {depots.map(({ id, name }) => (
                <ChoiceLine
                  key={id}
                  type="checkbox"
                  label={name}
                  checked={!left.has(id)}
                  onChange={() => toggle(id)}
                />
              ))}
            </div>
          </ChoiceLines>
          <p>
            <Button
              kind="quiet"
              onClick={() => setLeft(left.size === 0 ? new Set(depots.map(({ id }) => id)) : new Set())}
            >
              {left.size === 0 ? 'None' : 'All'}
            </Button>
          </p>
        </>
      )}
      <div className={styles.times}>
        <TextField
          label="From"
          type="date"
          value={from}
          min={plan.depots[0]?.today}
          onChange={setFrom}
          error={findFieldError(propose.error, 'from')}
        />
        <SelectField label="For" value={days} options={spans} onChange={setDays} />
      </div>
      {propose.isError && findFieldError(propose.error, 'from') === undefined && (
        <ProblemNote error={propose.error} />
      )}
      {propose.isPending && <p role="status">Weighing vehicles, bays and days: some seconds.</p>}
      <div className={styles.buttons}>
        <Button
          type="submit"
          kind="main"
          disabled={propose.isPending || chosen.length === 0 || vehicles === null}
        >
          Propose
        </Button>
        {onLeave !== null && (
          <Button kind="quiet" onClick={onLeave}>
            Back to the proposal
          </Button>
        )}
      </div>
    </form>
  );
}

/** The address that shows every proposal, as far as four weeks can; as it is where they lie within the days shown. */
function showAll(shown: BayPlan, { from, assignments }: Plan, isOneDepot: boolean): BayPlanPatch {
  const days = assignments.map(({ day }) => day).toSorted();
  const patch: BayPlanPatch = { beside: 'plan', ...(isOneDepot ? {} : { depot: undefined }) };
  const last = days.at(-1);
  if (last === undefined || ((days[0] ?? last) >= shown.from && last <= shown.to)) return patch;
  const start = findMonday(from);
  const weeks = Math.ceil((countDays(start, last) + 1) / 7);
  return { ...patch, from: start, days: Math.min(28, weeks * 7) };
}
