import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useMemo } from 'react';
import { useNewerAssessment } from '#web/api/use-assessed-at.ts';
import { rankingKeys, useOutlook, useRanking } from '#web/api/use-ranking.ts';
import { usePerson } from '#web/api/use-session.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { scaleForHorizon } from '#web/ui/rail-geometry.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { ChoicePanel } from './choice-panel.tsx';
import { EmptyFleet } from './empty-fleet.tsx';
import { HoldsNote } from './holds-note.tsx';
import styles from './inspection-list.module.css';
import { joinRows } from './join-rows.ts';
import { ListFilters } from './list-filters.tsx';
import { ListHead } from './list-head.tsx';
import { ListSkeleton } from './list-skeleton.tsx';
import { NoMatch } from './no-match.tsx';
import { NothingSent } from './nothing-sent.tsx';
import { RankedRows } from './ranked-rows.tsx';
import { useChoice } from './use-choice.ts';
import { useListState } from './use-list-state.ts';

/** All vehicles, in the order in which inspecting them avoids most. */
export function InspectionListScreen() {
  const state = useListState();
  const units = useUnits();
  const ranking = useRanking(state.ask);
  const outlook = useOutlook(state.filter);
  const rows = useMemo(() => joinRows(ranking.data?.pages ?? []), [ranking.data]);
  const first = ranking.data?.pages[0];
  const client = useQueryClient();
  const isOutdated = useNewerAssessment(ranking.dataUpdatedAt);
  const isFiltered = Object.values(state.filter).some((value) => value !== undefined);
  const person = usePerson();
  const isShop = person?.role === 'shop';
  const all = useChoice(state, rows, first?.total ?? 0);

  useEffect(() => {
    document.title = `${isShop ? 'Sent to you' : 'Inspection list'} · Slipdrift`;
  }, [isShop]);

  if (first !== undefined && first.total === 0 && !isFiltered && !ranking.isPlaceholderData)
    return isShop ? <NothingSent /> : <EmptyFleet />;

  const horizonKm = first?.horizon_km ?? null;
  return (
    <>
      {!isShop && <HoldsNote rows={rows} />}
      <ListHead
        outlook={outlook}
        asOf={first?.as_of ?? null}
        isShop={isShop}
        state={state}
        onRenew={isOutdated ? () => void client.invalidateQueries({ queryKey: rankingKeys.all }) : null}
      />
      <ListFilters
        state={state}
        horizonKm={horizonKm}
        total={ranking.isPlaceholderData ? null : (first?.total ?? null)}
        isRefreshing={ranking.isPlaceholderData}
        isShop={isShop}
      />
      {ranking.isError && rows.length === 0 && (
        <div className={styles.block}>
          <ProblemNote error={ranking.error} onRetry={() => void ranking.refetch()} />
        </div>
      )}
      {ranking.isPending && <ListSkeleton />}
      {first !== undefined && first.total === 0 && isFiltered && <NoMatch state={state} />}
      {horizonKm !== null && rows.length > 0 && (
        <RankedRows
          rows={rows}
          total={first?.total ?? rows.length}
          horizonKm={horizonKm}
          scaleKm={scaleForHorizon(horizonKm, units)}
          state={state}
          ranking={ranking}
          all={all}
          canChoose={!isShop}
        />
      )}
      {!isShop && (state.chosen.length > 0 || all.error !== null) && (
        <ChoicePanel state={state} rows={rows} all={all} horizonKm={horizonKm} />
      )}
    </>
  );
}
