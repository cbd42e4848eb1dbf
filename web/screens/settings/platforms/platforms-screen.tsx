import { getRouteApi } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import { usePlatforms } from '#web/api/use-fleet.ts';
import styles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { newPlatform } from './platform-draft.ts';
import { PlatformForm } from './platform-form.tsx';
import { PlatformsTable } from './platforms-table.tsx';

const route = getRouteApi('/settings/platforms');

/** Limits, costs and expected life of each vehicle and transmission type. */
export function PlatformSettingsScreen() {
  const { open } = route.useSearch();
  const navigate = route.useNavigate();
  const { data, isPending, isError, error, refetch } = usePlatforms();
  const [isMaking, setMaking] = useState(false);
  useEffect(() => {
    document.title = 'Platforms · Slipdrift';
  }, []);
  const show = (id: string | undefined) =>
    void navigate({ search: id === undefined ? {} : { open: id }, replace: true, resetScroll: false });
  return (
    <div className={styles.screen}>
      <header className={styles.head}>
        <div className={styles.words}>
          <h1>Platforms</h1>
          <p>
            A platform is a vehicle and transmission type with its limit, its costs and the point at which
            slip is compared. What a change would do to the list is shown before it is saved.
          </p>
        </div>
        {!isMaking && (
          <Button kind="main" onClick={() => setMaking(true)}>
            New platform
          </Button>
        )}
      </header>
      {isMaking && (
        <PlatformForm
          stored={newPlatform}
          onSaved={(id) => {
            setMaking(false);
            show(id);
          }}
          onLeave={() => setMaking(false)}
        />
      )}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the platforms</p>}
      {data?.length === 0 && (
        <p className={styles.none}>
          No platform yet. Until a vehicle has one, a limit of 150 rpm is assumed for it.
        </p>
      )}
      {data !== undefined && data.length > 0 && (
        <PlatformsTable platforms={data} open={open} onToggle={(id) => show(open === id ? undefined : id)} />
      )}
    </div>
  );
}
