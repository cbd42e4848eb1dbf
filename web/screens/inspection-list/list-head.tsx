import type { UseQueryResult } from '@tanstack/react-query';
import { useState } from 'react';
import type { Outlook } from '#server/contract/ranking.ts';
import { useRankingFileAddress } from '#web/api/use-ranking.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatKm } from '#web/format/format-km.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { usualHorizonKm } from '#web/ui/rail-geometry.ts';
import { useMedia } from '#web/ui/use-media.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { GradeCounts } from './grade-counts.tsx';
import styles from './list-head.module.css';
import { OutlookFigure } from './outlook-figure.tsx';
import { SavedFilters } from './saved-filters.tsx';
import { sayWhatIsDue } from './say-what-is-due.ts';
import { sayWhatIsSent } from './say-what-is-sent.ts';
import type { ListState } from './use-list-state.ts';

interface Props {
  outlook: UseQueryResult<Outlook>;
  asOf: string | null;
  /** A shop has no bay days to plan: its head is the words alone. */
  isShop: boolean;
  state: ListState;
  /** Given where a newer assessment waits; rows never move by themselves. */
  onRenew: (() => void) | null;
}

export function ListHead({ outlook, asOf, isShop, state, onRenew }: Props) {
  const file = useRankingFileAddress(state.ask);
  const isSmall = useMedia('(max-width: 47.99rem)');
  const [isUnfolded, setUnfolded] = useState(false);
  const units = useUnits();
  const { horizon_km } = state.search;
  const say = isShop ? sayWhatIsSent : sayWhatIsDue;
  const figure = (
    <div className={styles.figure}>
      {outlook.isError && outlook.data === undefined ? (
        <ProblemNote error={outlook.error} onRetry={() => void outlook.refetch()} />
      ) : (
        <OutlookFigure outlook={outlook.data ?? null} />
      )}
    </div>
  );
  return (
    <section className={styles.head} aria-label="Overview">
      <div className={styles.words}>
        <h1>{isShop ? 'Sent to you' : 'Inspection list'}</h1>
        <p className={styles.sentence}>{outlook.data === undefined ? '\u00a0' : say(outlook.data.counts)}</p>
        <GradeCounts
          counts={outlook.data?.counts ?? null}
          chosen={state.search.grade}
          change={state.change}
        />
        <div className={styles.foot}>
          <p className={styles.asOf} role="status">
            {asOf === null ? '\u00a0' : `Assessed ${formatMoment(asOf)}`}
            {horizon_km !== undefined &&
              horizon_km !== usualHorizonKm &&
              `. Grades stay those of ${formatKm(usualHorizonKm, units)}`}
            {onRenew !== null && (
              <button type="button" className={styles.renew} onClick={onRenew}>
                Show the newer assessment
              </button>
            )}
          </p>
          <a href={file} download="inspection-list.csv" className={styles.file}>
            Download CSV
          </a>
          {!isShop && <SavedFilters search={state.search} />}
        </div>
      </div>
      {isShop ? null : isSmall ? (
        <details
          className={styles.folded}
          open={isUnfolded}
          onToggle={(event) => setUnfolded(event.currentTarget.open)}
        >
          <summary>When limits are reached, week by week</summary>
          {isUnfolded && figure}
        </details>
      ) : (
        figure
      )}
    </section>
  );
}
