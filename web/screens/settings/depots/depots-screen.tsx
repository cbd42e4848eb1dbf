import { getRouteApi } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import { useDepots } from '#web/api/use-fleet.ts';
import styles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { DepotForm } from './depot-form.tsx';
import { DepotsTable } from './depots-table.tsx';

const route = getRouteApi('/settings/depots');

/** Bays, hours and special days of each depot. */
export function DepotsScreen() {
  const { open } = route.useSearch();
  const navigate = route.useNavigate();
  const { data, isPending, isError, error, refetch } = useDepots();
  const [isMaking, setMaking] = useState(false);
  useEffect(() => {
    document.title = 'Depots · Slipdrift';
  }, []);
  const show = (id: string | undefined) =>
    void navigate({ search: id === undefined ? {} : { open: id }, replace: true, resetScroll: false });
  return (
    <div className={styles.screen}>
      <header className={styles.head}>
        <div className={styles.words}>
          <h1>Depots</h1>
          <p>When the bays of each depot can be used. Bookings and plans keep to it.</p>
        </div>
        {!isMaking && (
          <Button kind="main" onClick={() => setMaking(true)}>
            New depot
          </Button>
        )}
      </header>
      {isMaking && (
        <DepotForm
          before={null}
          onSaved={(id) => {
            setMaking(false);
            show(id);
          }}
          onLeave={() => setMaking(false)}
        />
      )}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the depots</p>}
      {data?.length === 0 && (
        <p className={styles.none}>No depot yet. A vehicle can be booked once it has one.</p>
      )}
      {data !== undefined && data.length > 0 && (
        <DepotsTable depots={data} open={open} onToggle={(id) => show(open === id ? undefined : id)} />
      )}
    </div>
  );
}
