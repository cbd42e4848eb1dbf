import { Link } from '@tanstack/react-router';
import type { RankingRow } from '#server/contract/ranking.ts';
import { changesBookings } from '#web/api/role-rights.ts';
import { useUncoveredHolds } from '#web/api/use-ranking.ts';
import { usePerson } from '#web/api/use-session.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { writeUnits } from '#web/ui/kept-units.ts';
import { useMedia } from '#web/ui/use-media.ts';
import styles from './holds-note.module.css';
import { noFilter, parseListSearch, patchSearch } from './list-search.ts';
import { sayHold } from './say-hold.ts';

const mostNamed = { wide: 5, small: 3 };

/** Vehicles that must not go out before an inspection and that no day waits for: nobody can overlook them. */
export function HoldsNote({ rows }: { rows: readonly RankingRow[] }) {
  const person = usePerson();
  const isSmall = useMedia('(max-width: 47.99rem)');
  const mayBook = person !== null && changesBookings(person.role);
  const holds = useUncoveredHolds(person !== null && person.role !== 'shop').data ?? [];
  if (holds.length === 0) return null;
  const named = holds.slice(0, isSmall ? mostNamed.small : mostNamed.wide);
  const rest = holds.length - named.length;
  /** One that the filters keep out, or that is not loaded yet, is among those on hold. */
  const toOpen = (before: object, vehicle: string) =>
    patchSearch(parseListSearch({ ...before }), {
      ...(rows.some((row) => row.vehicle === vehicle) ? {} : { ...noFilter, sort: undefined, grade: 'hold' }),
      open: vehicle,
    });
  return (
    <section className={styles.note} aria-labelledby="holds-note">
      <h2 id="holds-note" className={styles.title}>
        <GradeMark grade="hold" withWord={false} />
        {holds.length === 1
          ? '1 vehicle on hold has no day for its inspection'
          : `${holds.length} vehicles on hold have no day for their inspection`}
      </h2>
      <ul className={styles.list}>
        {named.map((hold) => (
          <li key={hold.vehicle}>
            <Link to="/" search={(before) => toOpen(before, hold.vehicle)} resetScroll={false}>
              {hold.vehicle}
            </Link>
            {sayHold(hold) !== '' && <span> {sayHold(hold)}</span>}
          </li>
        ))}
        {rest > 0 && (
          <li>
            <Link to="/" search={{ grade: 'hold' }}>
              and {rest} more
            </Link>
          </li>
        )}
      </ul>
      {mayBook && (
        <Link
          className={styles.find}
          to="/bay-plan"
          search={
            holds.length === 1
              ? { book: holds[0]?.vehicle ?? '' }
              : { propose: writeUnits(holds.map(({ vehicle }) => vehicle)) }
          }
        >
          {holds.length === 1 ? 'Find a day' : 'Find days for all of them'}
        </Link>
      )}
    </section>
  );
}
