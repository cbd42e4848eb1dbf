import type { RankingQuery } from '#server/contract/ranking.ts';
import { useDepots, usePlatforms } from '#web/api/use-fleet.ts';
import { usePerson } from '#web/api/use-session.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { useMedia } from '#web/ui/use-media.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { horizonOptions } from './horizon-options.ts';
import styles from './list-filters.module.css';
import { parseListSearch } from './list-search.ts';
import { PickField } from './pick-field.tsx';
import { SearchField } from './search-field.tsx';
import { sortWords } from './sort-words.ts';
import type { ListState } from './use-list-state.ts';

interface Props {
  state: ListState;
  horizonKm: number | null;
  total: number | null;
  isRefreshing: boolean;
}

export function ListFilters({ state, horizonKm, total, isRefreshing }: Props) {
  const { search, change } = state;
  const units = useUnits();
  const depots = useDepots();
  const own = usePerson()?.depots ?? null;
  const seen = depots.data?.filter(({ id }) => own === null || own.includes(id));
  const platforms = usePlatforms();
  const isSmall = useMedia('(max-width: 47.99rem)');
  const named = (list: readonly { id: string; name: string }[] | undefined, chosen: string | undefined) => {
    const options = (list ?? []).map(({ id, name }) => ({ value: id, label: name }));
    const isListed = chosen === undefined || options.some(({ value }) => value === chosen);
    return isListed ? options : [...options, { value: chosen, label: chosen }];
  };
  return (
    <search className={styles.filters} aria-label="Narrow the list">
      <SearchField
        value={search.q ?? ''}
        onChange={(q) => change({ q: q === '' ? undefined : q }, 'quiet')}
      />
      <details className={styles.more} open={!isSmall}>
        <summary>{isSmall ? `Depot, platform, horizon, order` : null}</summary>
        <div className={styles.picks}>
          <PickField
            label="Depot"
            value={search.depot ?? ''}
            options={[{ value: '', label: 'all depots' }, ...named(seen, search.depot)]}
            onPick={(depot) => change({ depot: depot === '' ? undefined : depot })}
          />
          <PickField
            label="Platform"
            value={search.platform ?? ''}
            options={[{ value: '', label: 'all platforms' }, ...named(platforms.data, search.platform)]}
            onPick={(platform) => change({ platform: platform === '' ? undefined : platform })}
          />
          <PickField
            label="Horizon"
            value={String(search.horizon_km ?? horizonKm ?? '')}
            options={horizonOptions(search.horizon_km ?? horizonKm, units)}
            onPick={(km) => change({ horizon_km: Number(km) })}
          />
          <PickField
            label="Order"
            value={search.sort ?? 'rank'}
            options={Object.entries(sortWords).map(([value, label]) => ({ value, label }))}
            onPick={(sort) => change({ sort: parseListSearch({ sort }).sort as RankingQuery['sort'] })}
          />
        </div>
      </details>
      <p className={styles.total} role="status" data-waiting={isRefreshing}>
        {total === null ? '' : `${formatWhole(total)} ${total === 1 ? 'vehicle' : 'vehicles'}`}
      </p>
    </search>
  );
}
