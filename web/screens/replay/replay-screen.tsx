import { getRouteApi, Link } from '@tanstack/react-router';
import { useEffect, useMemo } from 'react';
import { ProblemError } from '#web/api/problem-error.ts';
import { useKnownUntil, useReplay } from '#web/api/use-replay.ts';
import { useThresholds } from '#web/api/use-thresholds.ts';
import parts from '#web/ui/parts.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useKeptFocus } from '#web/ui/use-kept-focus.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { EarlierReplays } from './earlier-replays.tsx';
import styles from './replay.module.css';
import type { Present } from './replay-draft.ts';
import { ReplayForm } from './replay-form.tsx';
import { parseReplaySearch, type ReplaySearch } from './replay-search.ts';
import { ReplayShown } from './replay-shown.tsx';

const route = getRouteApi('/analysis/replay');

/** A past period run again, day by day. */
export function ReplayScreen() {
  const raw = route.useSearch();
  const search = useMemo(() => parseReplaySearch({ ...raw }), [raw]);
  const navigate = route.useNavigate();
  const units = useUnits();
  const title = useKeptFocus<HTMLHeadingElement>(search.id);
  const thresholds = useThresholds();
  const known = useKnownUntil();
  const until = known.data?.slice(0, 10) ?? (known.isError ? new Date().toISOString().slice(0, 10) : null);
  const present = useMemo<Present | null>(
    () =>
      until === null || thresholds.data === undefined ? null : { until, thresholds: thresholds.data, units },
    [until, thresholds.data, units],
  );
  useEffect(() => {
    document.title = 'Replay · Slipdrift';
  }, []);
  const show = (next: ReplaySearch, replace = false) =>
    void navigate({ search: parseReplaySearch({ ...next }), replace, resetScroll: !replace });
  return (
    <div className={styles.page}>
      <header className={`${parts.part} ${styles.head}`}>
        <h1 ref={title} tabIndex={-1}>
          Replay
        </h1>
        <p className={styles.words}>
          A past period, run again day by day with only what was known then. It says what the list would have
          asked for, not what would have been done; the program advises, and people decide.
        </p>
      </header>
      {thresholds.isError && (
        <ProblemNote error={thresholds.error} onRetry={() => void thresholds.refetch()} />
      )}
      {present === null && !thresholds.isError && <p role="status">Loading what is in use now</p>}
      {present !== null && search.id === undefined && (
        <>
          <ReplayForm
            search={search}
            present={present}
            onType={(typed) => show(typed, true)}
            onStarted={(id) => show({ id })}
          />
          <EarlierReplays />
        </>
      )}
      {present !== null && search.id !== undefined && (
        <One key={search.id} id={search.id} search={search} present={present} onShow={show} />
      )}
    </div>
  );
}

interface OneProps {
  id: number;
  search: ReplaySearch;
  present: Present;
  onShow: (next: ReplaySearch, replace?: boolean) => void;
}

function One({ id, search, present, onShow }: OneProps) {
  const { data, isPending, error, refetch } = useReplay(id);
  const isUnknown = error instanceof ProblemError && error.code === 'not_found';
  return (
    <>
      <p>
        <Link to="/analysis/replay">All replays, and a new one</Link>
      </p>
      {isPending && <p role="status">Loading the replay</p>}
      {isUnknown && (
        <p className={styles.lead}>No replay has the number {id}: it was forgotten, or is somebody else’s.</p>
      )}
      {error !== null && !isUnknown && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {data !== undefined && !isUnknown && (
        <ReplayShown replay={data} compare={search.compare ?? null} present={present} onShow={onShow} />
      )}
    </>
  );
}
