import { kmFromMiles } from '#server/contract/units.ts';
import { type KmRange, type MileageView, rangeOfLife } from '#web/charts/mileage-view.ts';
import { sayBand } from '#web/charts/say-band.ts';
import { fitRange, isSame } from '#web/charts/zoom-range.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './mileage-tools.module.css';
import type { VehicleState } from './use-vehicle-state.ts';

interface Props {
  view: MileageView;
  target: KmRange;
  state: VehicleState;
  onRange: (range: KmRange, isDone: boolean) => void;
}

/** What the chart shows: command, life, and how much of the mileage. */
export function MileageTools({ view, target, state, onRange }: Props) {
  const units = useUnits();
  const { search, change } = state;
  const lastDistance = units.distance === 'mi' ? 12_000 : 20_000;
  const lastKm = units.distance === 'mi' ? kmFromMiles(lastDistance) : lastDistance;
  const lately = fitRange(
    { fromKm: view.nowKm - lastKm, toKm: Math.min(view.whole.toKm, view.nowKm + lastKm * 0.6) },
    view.whole,
  );
  const isAll = isSame(target, view.whole);
  const isFirst = isSame(target, view.first);
  const isLately = isSame(target, lately);
  const lives = view.series.lives.filter((life) => (life.removed_km ?? view.nowKm) > view.whole.fromKm);
  return (
    <div className={styles.tools}>
      <label>
        command{' '}
        <select
          value={search.band ?? ''}
          onChange={(event) => change({ band: event.target.value || undefined })}
        >
          <option value="">reference, {formatWhole(view.series.reference.duty_pct)} %</option>
          {view.strips.map((strip) => (
            <option key={strip.band} value={strip.band}>
              {sayBand(strip)}
            </option>
          ))}
        </select>
      </label>
      {lives.length > 1 && (
        <label>
          life{' '}
          <select
            value={search.life ?? ''}
            onChange={(event) => {
              const life = Number(event.target.value);
              if (!life) return change({ life: undefined, from: undefined, to: undefined });
              const range = rangeOfLife(view, life);
              change({ life, from: range.fromKm, to: range.toKm });
            }}
          >
            <option value="">all</option>
            {lives.map((life) => (
              <option key={life.life} value={life.life}>
                {life.life}
              </option>
            ))}
          </select>
        </label>
      )}
      <span className={styles.ranges}>
        {!isSame(view.first, view.whole) && (
          <button type="button" aria-pressed={isFirst} onClick={() => onRange(view.first, true)}>
            the rise
          </button>
        )}
        <button type="button" aria-pressed={isAll} onClick={() => onRange(view.whole, true)}>
          all
        </button>
        {lately.toKm - lately.fromKm < (view.whole.toKm - view.whole.fromKm) * 0.9 && (
          <button type="button" aria-pressed={isLately} onClick={() => onRange(lately, true)}>
            last {formatWhole(lastDistance)} {units.distance}
          </button>
        )}
        {!isAll && !isFirst && !isLately && <span className={styles.own}>own range</span>}
      </span>
    </div>
  );
}
