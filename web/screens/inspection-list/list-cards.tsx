import { memo } from 'react';
import { formatDays } from '#web/format/format-days.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { TickBox } from '#web/ui/tick-box.tsx';
import { BookingLink } from './booking-link.tsx';
import { firstReason } from './first-reason.ts';
import styles from './list-cards.module.css';
import { RowDetails } from './row-details.tsx';
import { rowProps } from './row-props.ts';
import { sayBookingInLine, sayNoBooking } from './say-booking.ts';
import { findChange, sayChange } from './say-change.ts';
import type { RowProps, ShownRows } from './shown-rows.ts';

/** The same list in one column, for a hand-held screen. */
export function ListCards(shown: ShownRows) {
  return (
    <>
      <div className={styles.scale} aria-hidden="true">
        <RailScale horizonKm={shown.horizonKm} scaleKm={shown.scaleKm} />
      </div>
      <ul
        aria-label="Vehicles in the order in which inspecting them avoids most"
        style={{ paddingTop: shown.spaceBefore, paddingBottom: shown.spaceAfter }}
      >
        {shown.items.map((item) => {
          const row = shown.rows[item.index];
          return row === undefined ? null : (
            <Card key={item.key} {...rowProps(shown, row, item.index)} total={shown.total} />
          );
        })}
      </ul>
    </>
  );
}

const Card = memo(function Card(props: RowProps & { total: number }) {
  const { row, index, isOpen, onToggle, onChoose } = props;
  const detailsId = `details-${index}`;
  const change = props.showsChange ? sayChange(findChange(row)) : '';
  return (
    <li
      ref={props.measure}
      data-index={index}
      data-vehicle={row.vehicle}
      className={styles.card}
      aria-setsize={props.total}
      aria-posinset={index + 1}
    >
      <div className={styles.top}>
        <button
          type="button"
          className={styles.open}
          data-row-button=""
          aria-expanded={isOpen}
          aria-controls={isOpen ? detailsId : undefined}
          onClick={() => onToggle(row.vehicle)}
        >
          <span className={styles.rank}>{row.rank}</span>
          <span className={styles.vehicle}>{row.vehicle}</span>
          <GradeMark grade={row.grade} />
        </button>
        {onChoose !== null && (
          <TickBox
            label={`Choose ${row.vehicle}`}
            checked={props.isChosen}
            disabled={!props.canChoose}
            onChange={(withShift) => onChoose(index, withShift)}
          />
        )}
      </div>
      <DistanceRail
        distance={row.km_to_limit}
        grade={row.grade}
        horizonKm={props.horizonKm}
        scaleKm={props.scaleKm}
        reason={row.missing[0] ?? null}
        showsReason={false}
      />
      {!isOpen && row.days_to_limit.p50 !== null && (
        <p className={styles.figures}>
          {row.days_to_limit.p50 > 0 && `${formatDays(row.days_to_limit.p50)} to the limit · `}
          {formatPercent(row.chance_within_horizon)} within the horizon
        </p>
      )}
      {!isOpen && (row.booking !== null || row.inspected_on !== null) && (
        <p className={styles.figures}>
          <span className={styles.name}>Booking </span>
          {row.booking === null ? (
            sayNoBooking(row)
          ) : (
            <BookingLink booking={row.booking}>
              {sayBookingInLine(row.booking, row.depot, props.names.depot)}
            </BookingLink>
          )}
        </p>
      )}
      {!isOpen && change !== '' && <p className={styles.reason}>{change}</p>}
      {!isOpen && <p className={styles.reason}>{keepUnits(firstReason(row))}</p>}
      {isOpen && (
        <div id={detailsId} className={styles.details}>
          <RowDetails {...props} />
        </div>
      )}
    </li>
  );
});
