import { Link } from '@tanstack/react-router';
import { lazy, Suspense, useMemo, useRef } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
import { changesBookings } from '#web/api/role-rights.ts';
import { useBookedUnits } from '#web/api/use-ranking.ts';
import { usePerson } from '#web/api/use-session.ts';
import { Button } from '#web/ui/button.tsx';
import { writeUnits } from '#web/ui/kept-units.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useRoomBelow } from '#web/ui/use-room-below.ts';
import styles from './choice-panel.module.css';
import { mostCompared } from './list-search.ts';
import { sayBooked, sayChosen, sayNotClosed } from './say-chosen.ts';
import type { ChoiceOfAll } from './use-choice.ts';
import type { ListState } from './use-list-state.ts';

/** Few who open the list compare: what that takes is loaded when it is asked for. */
const Comparison = lazy(async () => ({ default: (await import('./comparison.tsx')).Comparison }));

interface Props {
  state: ListState;
  rows: readonly RankingRow[];
  all: ChoiceOfAll;
  horizonKm: number | null;
}

/** What can be done with the ticked vehicles, and two or three of them side by side. */
export function ChoicePanel({ state, rows, all, horizonKm }: Props) {
  const { chosen, isComparing } = state;
  const panel = useRef<HTMLElement>(null);
  useRoomBelow(panel);
  const person = usePerson();
  const mayBook = person !== null && changesBookings(person.role);
  const [ahead, past] = [
    useBookedUnits('open', mayBook && chosen.length > 0).data,
    useBookedUnits('past', mayBook && chosen.length > 0).data,
  ];
  const told = [
    sayBooked(
      chosen.filter((vehicle) => ahead?.has(vehicle)),
      chosen.length,
    ),
    sayNotClosed(
      chosen.filter((vehicle) => past?.has(vehicle)),
      chosen.length,
    ),
  ].filter((words) => words !== '');
  const propose = useMemo(() => writeUnits(chosen), [chosen]);
  const canCompare = chosen.length > 1 && chosen.length <= mostCompared;
  return (
    <aside
      ref={panel}
      className={styles.panel}
      aria-label={isComparing ? 'Comparison' : 'Chosen vehicles'}
      data-comparing={isComparing}
    >
      <div className={styles.bar}>
        <div className={styles.words} role="status">
          <h2 className={styles.title}>{sayChosen(chosen)}</h2>
          {told.map((words) => (
            <p key={words} className={styles.hint}>
              {words}
            </p>
          ))}
        </div>
        <div className={styles.buttons}>
          {!all.isFull && !isComparing && rows.length > 0 && (
            <Button kind="quiet" disabled={all.isBusy} onClick={all.chooseAll}>
              {all.words}
            </Button>
          )}
          <Button kind="quiet" onClick={state.clearChoice}>
            Clear
          </Button>
          <Button
            aria-expanded={isComparing}
            disabled={!canCompare}
            title={canCompare ? undefined : 'Two or three vehicles can be compared'}
            onClick={() => state.compare(!isComparing)}
          >
            {isComparing ? 'Fold' : 'Compare'}
          </Button>
          {mayBook && (
            <Link className={styles.find} to="/bay-plan" search={{ propose }}>
              {chosen.length === 1 ? 'Find a day' : `Find days for ${chosen.length} vehicles`}
            </Link>
          )}
        </div>
      </div>
      {all.error !== null && <ProblemNote error={all.error} onRetry={all.chooseAll} />}
      {isComparing && horizonKm !== null && (
        <Suspense>
          {' '}
          <Comparison
            vehicles={chosen}
            rows={rows}
            horizonKm={horizonKm}
            onDrop={(vehicle) => state.choose([vehicle], false)}
          />
        </Suspense>
      )}
    </aside>
  );
}
