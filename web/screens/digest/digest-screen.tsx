import { getRouteApi } from '@tanstack/react-router';
import { useEffect, useMemo } from 'react';
import { useDigest } from '#web/api/use-digest.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { scaleForHorizon } from '#web/ui/rail-geometry.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './digest.module.css';
import { DigestHead } from './digest-head.tsx';
import { DigestParts } from './digest-parts.tsx';
import { parseDigestSearch } from './digest-search.ts';

const route = getRouteApi('/digest');

/** What a planner should know at the beginning of a week, the most urgent first. */
export function DigestScreen() {
  const raw = route.useSearch();
  const search = useMemo(() => parseDigestSearch({ ...raw }), [raw]);
  const { data, isPending, isError, error, refetch, isPlaceholderData } = useDigest(search);
  const units = useUnits();
  const hasFailed = isError && (data === undefined || isPlaceholderData);
  useEffect(() => {
    document.title = 'This week · Slipdrift';
  }, []);
  return (
    <div className={styles.page} aria-busy={isPending || isPlaceholderData}>
      <DigestHead digest={hasFailed ? null : (data ?? null)} isOther={isPlaceholderData} search={search} />
      {hasFailed && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && (
        <p role="status" className={styles.none}>
          Loading the week
        </p>
      )}
      {data !== undefined && !hasFailed && (
        <div className={styles.parts} data-waiting={isPlaceholderData}>
          <DigestParts digest={data} scaleKm={scaleForHorizon(data.horizon_km, units)} />
        </div>
      )}
    </div>
  );
}
