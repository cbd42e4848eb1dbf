import type { RankingQuery } from '#server/contract/ranking.ts';
import { usePlatforms } from '#web/api/use-fleet.ts';
import { useOwnDepots } from '#web/api/use-own-depots.ts';
import { usePerson } from '#web/api/use-session.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { useMedia } from '#web/ui/use-media.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { bookingWords, changedWords } from './filter-words.ts';
import { horizonOptions } from './horizon-options.ts';
import { lacking, lacks, pickPart } from './lacking.ts';
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
  /** A shop has what was sent to it: nothing to plan, and nothing to keep. */
  isShop: boolean;
}

export function ListFilters({ state, horizonKm, total, isRefreshing, isShop }: Props) {
  const { search, change } = state;
  const units = useUnits();
  const depots = useOwnDepots();
  const own = usePerson()?.depots ?? null;
  const platforms = usePlatforms();
  const isSmall = useMedia('(max-width: 47.99rem)');
  const picks = (
    <div className={styles.picks}>
      <PickField
        label="Depot"
        value={lacks(search, 'depot') ? lacking : (search.depot ?? '')}
        options={[
          { value: '', label: 'all depots' },
          ...named(depots, search.depot),
          ...(own === null ? [{ value: lacking, label: 'no depot' }] : []),
        ]}
        onPick={(depot) => change(pickPart(search, 'depot', depot))}
      />
      <PickField
        label="Platform"
        value={lacks(search, 'platform') ? lacking : (search.platform ?? '')}
        options={[
          { value: '', label: 'all platforms' },
          ...named(platforms.data, search.platform),
          { value: lacking, label: 'no platform' },
        ]}
        onPick={(platform) => change(pickPart(search, 'platform', platform))}
      />
      {!isShop && (
        <>
          <PickField
            label="Booking"
            value={search.booking ?? ''}
            options={[{ value: '', label: 'with and without' }, ...worded(bookingWords)]}
            onPick={(booking) => change({ booking: parseListSearch({ booking }).booking })}
          />
          <PickField
            label="Since a week ago"
            value={search.changed ?? ''}
            options={[{ value: '', label: 'all' }, ...worded(changedWords)]}
            onPick={(changed) => change({ changed: parseListSearch({ changed }).changed })}
          />
        </>
      )}
      <PickField
        label="Horizon"
        value={String(search.horizon_km ?? horizonKm ?? '')}
        options={horizonOptions(search.horizon_km ?? horizonKm, units)}
        onPick={(km) => change({ horizon_km: Number(km) })}
      />
      <PickField
        label="Order"
        value={search.sort ?? 'rank'}
        options={worded(sortWords)}
        onPick={(sort) => change({ sort: parseListSearch({ sort }).sort as RankingQuery['sort'] })}
      />
    </div>
  );
  return (
    <search className={styles.filters} aria-label="Narrow the list">
      <SearchField
        value={search.q ?? ''}
        onChange={(q) => change({ q: q === '' ? undefined : q }, 'quiet')}
      />
      {isSmall ? (
        <details className={styles.more}>
          <summary>{isShop ? 'Depot, platform, horizon, order' : 'Filters and order'}</summary>
          {picks}
        </details>
      ) : (
        picks
      )}
      <p className={styles.total} role="status" data-waiting={isRefreshing}>
        {total === null ? '' : `${formatWhole(total)} ${total === 1 ? 'vehicle' : 'vehicles'}`}
      </p>
    </search>
  );
}

const worded = (words: Record<string, string>) =>
  Object.entries(words).map(([value, label]) => ({ value, label }));

/** Named options, and the chosen one where it is none of them. */
function named(list: readonly { id: string; name: string }[] | undefined, chosen: string | undefined) {
  const options = (list ?? []).map(({ id, name }) => ({ value: id, label: name }));
  const isListed = chosen === undefined || options.some(({ value }) => value === chosen);
  return isListed ? options : [...options, { value: chosen, label: chosen }];
}
