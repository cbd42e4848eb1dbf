import { useWindowVirtualizer } from '@tanstack/react-virtual';
import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import type { useRanking } from '#web/api/use-ranking.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useMedia } from '#web/ui/use-media.ts';
import styles from './inspection-list.module.css';
import { ListCards } from './list-cards.tsx';
import { ListTable } from './list-table.tsx';
import type { ChoiceOfAll } from './use-choice.ts';
import { useChoose } from './use-choose.ts';
import type { ListState } from './use-list-state.ts';
import { useRowKeys } from './use-row-keys.ts';

interface Props {
  rows: readonly RankingRow[];
  total: number;
  horizonKm: number;
  scaleKm: number;
  state: ListState;
  ranking: ReturnType<typeof useRanking>;
  all: ChoiceOfAll;
  /** whether rows can be ticked */
  canChoose: boolean;
}

const rowHeight = { table: 44, cards: 168 };
/** Rows before the end at which the next page is asked for. */
const lead = 60;
const settleMs = 120;

function isInSight(frame: HTMLElement | null, index: number): boolean {
  const place = frame?.querySelector(`[data-index="${index}"]`)?.getBoundingClientRect();
  return place !== undefined && place.top >= 0 && place.top < window.innerHeight;
}

/** Only the rows in sight are drawn, so that ten thousand scroll like ten. */
export function RankedRows({ rows, total, horizonKm, scaleKm, state, ranking, all, canChoose }: Props) {
  const asCards = useMedia('(max-width: 47.99rem)');
  const names = useFleetNames();
  const frame = useRef<HTMLDivElement>(null);
  const [top, setTop] = useState(0);
  useLayoutEffect(() => {
    const offset = frame.current === null ? 0 : frame.current.getBoundingClientRect().top + window.scrollY;
    if (Math.abs(offset - top) > 1) setTop(offset);
  });

  const virtualizer = useWindowVirtualizer({
    count: rows.length,
    estimateSize: () => (asCards ? rowHeight.cards : rowHeight.table),
    getItemKey: (index) => rows[index]?.vehicle ?? index,
    scrollMargin: top,
    overscan: 10,
  });
  const items = virtualizer.getVirtualItems();
  const lastInSight = items.at(-1)?.index ?? 0;
  const { hasNextPage, isFetchingNextPage, isFetchNextPageError, fetchNextPage } = ranking;
  useEffect(() => {
    if (hasNextPage && !isFetchingNextPage && !isFetchNextPageError && lastInSight >= rows.length - lead)
      void fetchNextPage();
  }, [hasNextPage, isFetchingNextPage, isFetchNextPageError, fetchNextPage, lastInSight, rows.length]);

  const { open } = state.search;
  const { isPlaceholderData } = ranking;
  const shownOpen = useRef<string>(undefined);
  useEffect(() => {
    if (isPlaceholderData || open === shownOpen.current) return;
    shownOpen.current = open;
    const index = rows.findIndex(({ vehicle }) => vehicle === open);
    if (index < 0) return;
    // After the router has set the place of the page, which it does once the screen stands.
    const timer = setTimeout(() => {
      if (!isInSight(frame.current, index)) virtualizer.scrollToIndex(index, { align: 'center' });
    }, settleMs);
    return () => clearTimeout(timer);
  }, [rows, open, isPlaceholderData, virtualizer]);

  const choose = useChoose(rows, state);
  const onChoose = canChoose ? choose : null;
  useRowKeys({ frame, rows, virtualizer, onChoose });

  const measure = virtualizer.measureElement;
  const shown = { rows, total, items, horizonKm, scaleKm, state, names, all, onChoose, measure };
  const before = (items[0]?.start ?? top) - top;
  const after = virtualizer.getTotalSize() - ((items.at(-1)?.end ?? top) - top);
  const List = asCards ? ListCards : ListTable;
  return (
    <div ref={frame} className={styles.rows} data-waiting={ranking.isPlaceholderData}>
      <h2 className="only-spoken">Vehicles</h2>
      <List {...shown} spaceBefore={before} spaceAfter={after} />
      {isFetchingNextPage && <p className={styles.more}>Loading more vehicles</p>}
      {isFetchNextPageError && (
        <div className={styles.block}>
          <ProblemNote error={ranking.error} onRetry={() => void fetchNextPage()} />
        </div>
      )}
    </div>
  );
}
