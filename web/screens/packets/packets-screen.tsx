import { getRouteApi, Link } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import type { PacketState } from '#server/contract/words.ts';
import { usePackets } from '#web/api/use-packets.ts';
import { usePerson } from '#web/api/use-session.ts';
import { Button } from '#web/ui/button.tsx';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { ClosedRow, OpenRow } from './packet-row.tsx';
import styles from './packets-screen.module.css';
import { parsePacketsSearch } from './packets-search.ts';
import { SentWithoutPacket } from './sent-without-packet.tsx';

const route = getRouteApi('/packets');

/** The jobs: open ones with what is next, closed ones with what came of them. */
export function PacketsScreen() {
  const search = parsePacketsSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const role = usePerson()?.role;
  useEffect(() => {
    document.title = 'Packets · Slipdrift';
  }, []);
  const { state, vehicle } = search;
  return (
    <div className={styles.page}>
      <header className={styles.head}>
        <h1>Packets</h1>
        <ChoiceGroup
          legend="Show"
          name="state"
          value={state ?? 'both'}
          options={[
            { value: 'both', label: 'both' },
            { value: 'open', label: 'open' },
            { value: 'closed', label: 'closed' },
          ]}
          onChoose={(chosen) =>
            void navigate({
              to: '/packets',
              search: {
                ...(chosen === 'both' ? {} : { state: chosen }),
                ...(vehicle === undefined ? {} : { vehicle }),
              },
              replace: true,
            })
          }
        />
      </header>
      {vehicle !== undefined && (
        <p>
          Of {vehicle} alone.{' '}
          <Link to="/packets" search={state === undefined ? {} : { state }}>
            Show all
          </Link>
        </p>
      )}
      {state !== 'closed' && <Jobs state="open" vehicle={vehicle} />}
      {state !== 'closed' && vehicle === undefined && role === 'shop' && <SentWithoutPacket />}
      {state !== 'open' && <Jobs state="closed" vehicle={vehicle} />}
    </div>
  );
}

const pageSize = 50;
const most = 200;
const words: Record<PacketState, { title: string; none: string }> = {
  open: { title: 'Open jobs', none: 'No job is open.' },
  closed: { title: 'Closed jobs', none: 'No job has been closed yet.' },
};

function Jobs({ state, vehicle }: { state: PacketState; vehicle: string | undefined }) {
  const [limit, setLimit] = useState(pageSize);
  const { data, isPending, isError, error, refetch, isPlaceholderData } = usePackets({
    state,
    vehicle,
    limit,
  });
  const rest = data === undefined ? 0 : data.total - data.packets.length;
  return (
    <section className={styles.jobs} aria-labelledby={`jobs-${state}`}>
      <h2 id={`jobs-${state}`}>
        {words[state].title}
        {data !== undefined && <span className={styles.count}> {data.total}</span>}
      </h2>
      {isPending && <p role="status">Loading the jobs</p>}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {data?.packets.length === 0 && <p className={styles.soft}>{words[state].none}</p>}
      {data !== undefined && data.packets.length > 0 && (
        <ul className={styles.list} aria-busy={isPlaceholderData}>
          {data.packets.map((packet) =>
            packet.state === 'open' ? (
              <OpenRow key={packet.id} packet={packet} />
            ) : (
              <ClosedRow key={packet.id} packet={packet} />
            ),
          )}
        </ul>
      )}
      {rest > 0 && limit < most && (
        <p>
          <Button onClick={() => setLimit(most)}>Show {Math.min(rest, most - pageSize)} more</Button>
        </p>
      )}
      {rest > 0 && limit >= most && (
        <p className={styles.soft}>{rest} older ones are found from the screens of their vehicles.</p>
      )}
    </section>
  );
}
