import { getRouteApi, Link } from '@tanstack/react-router';
import type { Digest } from '#server/contract/digest.ts';
import { useOwnDepots } from '#web/api/use-own-depots.ts';
import { usePerson } from '#web/api/use-session.ts';
import { addDays, findMonday } from '#web/format/days.ts';
import { formatMoment, formatUtcDate } from '#web/format/format-date.ts';
import { formatDaySpan } from '#web/format/format-day.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { todayAt } from '#web/format/zones.ts';
import { Button } from '#web/ui/button.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import styles from './digest.module.css';
import type { DigestSearch } from './digest-search.ts';

const route = getRouteApi('/digest');

interface Props {
  /** null while nothing is known */
  digest: Digest | null;
  /** whether it is of another week or depot, until that of the address is there */
  isOther: boolean;
  search: DigestSearch;
}

export function DigestHead({ digest, isOther, search }: Props) {
  // The server counts weeks in UTC.
  const running = findMonday(todayAt('UTC', new Date()));
  const asked = search.week === undefined ? running : findMonday(search.week);
  const monday = digest?.week ?? asked;
  const isRunning = digest?.current ?? monday === running;
  return (
    <header className={styles.head}>
      <div className={styles.title}>
        <h1>{isRunning ? 'This week' : 'Past week'}</h1>
        <p className={styles.span}>{formatDaySpan(monday, addDays(monday, 6))}</p>
      </div>
      <p className={styles.sentence} role="status">
        {keepUnits(digest?.sentence ?? '\u00a0')}
      </p>
      {digest !== null && <p className={styles.note}>{sayBasis(digest)}</p>}
      <div className={styles.tools}>
        <WeekLinks monday={isOther ? asked : monday} running={running} depot={search.depot} />
        <DepotField search={search} />
        <div className={styles.print}>
          <Button onClick={() => window.print()}>Print</Button>
        </div>
      </div>
    </header>
  );
}

/** What it tells of, and what it is compared with. */
function sayBasis({ from, to, current, as_of: asOf, compared_with: day }: Digest): string {
  const told = current
    ? `Tells of the seven days up to now, ${formatMoment(to)}.`
    : `Tells what its Monday told: the seven days from ${formatUtcDate(from)} to ${formatUtcDate(to)}, 00:00 UTC.`;
  const assessed = current && asOf !== null ? ` Assessed ${formatMoment(asOf)}.` : '';
  const compared = day === null ? '' : ` Compared with the list of ${formatUtcDate(`${day}T00:00:00Z`)}.`;
  return `${told}${assessed}${compared}`;
}

function WeekLinks({
  monday,
  running,
  depot,
}: {
  monday: string;
  running: string;
  depot: string | undefined;
}) {
  const ofDepot = depot === undefined ? {} : { depot };
  const next = addDays(monday, 7);
  return (
    <nav className={styles.weeks} aria-label="Weeks">
      <Link
        to="/digest"
        search={{ ...ofDepot, week: addDays(monday, -7) }}
        className={styles.week}
        resetScroll={false}
      >
        Week before
      </Link>
      {next < running && (
        <Link to="/digest" search={{ ...ofDepot, week: next }} className={styles.week} resetScroll={false}>
          Week after
        </Link>
      )}
      {monday < running && (
        <Link to="/digest" search={ofDepot} className={styles.week} resetScroll={false}>
          This week
        </Link>
      )}
    </nav>
  );
}

function DepotField({ search }: { search: DigestSearch }) {
  const navigate = route.useNavigate();
  const own = usePerson()?.depots ?? null;
  const depots = useOwnDepots();
  const { depot: chosen = '', ...others } = search;
  const options = depots.map(({ id, name }) => ({ value: id, label: name }));
  if (chosen !== '' && !options.some(({ value }) => value === chosen))
    options.push({ value: chosen, label: chosen });
  if (options.length < 2 && chosen === '') return null;
  return (
    <SelectField
      label="Depot"
      value={chosen}
      options={[{ value: '', label: own === null ? 'all depots' : 'all of yours' }, ...options]}
      onChange={(depot) =>
        void navigate({
          to: '/digest',
          search: depot === '' ? others : { ...others, depot },
          resetScroll: false,
        })
      }
    />
  );
}
