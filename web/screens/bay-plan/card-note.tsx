import { type RefObject, useEffect, useRef, useState } from 'react';
import { useVehicle } from '#web/api/use-vehicle.ts';
import { formatDays } from '#web/format/format-days.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { describeRail } from '#web/ui/describe-rail.ts';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { scaleForHorizon, shapeRail, usualHorizonKm } from '#web/ui/rail-geometry.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './card-note.module.css';
import type { Carry } from './carry.ts';
import { gradeOf, type Item, isPast, sayMisfit } from './plan-items.ts';
import { sayWhen } from './say-item.ts';
import { useCardUnder } from './use-card-under.ts';

interface Props {
  root: RefObject<HTMLElement | null>;
  sheet: RefObject<HTMLElement | null>;
  carry: Carry;
  findItem: (key: string) => Item | undefined;
}

/** What a card has no room for, while the pointer or the focus is on it. */
export function CardNote({ root, sheet, carry, findItem }: Props) {
  const under = useCardUnder(root, carry);
  const item = under === null ? undefined : findItem(under.dataset.card ?? '');
  if (under === null || item === undefined) return null;
  return <Note key={item.key} card={under} item={item} sheet={sheet} />;
}

function Note({ card, item, sheet }: { card: HTMLElement; item: Item; sheet: Props['sheet'] }) {
  const own = useRef<HTMLDivElement>(null);
  const [at, setAt] = useState<{ left: number; top: number } | null>(null);
  useEffect(() => {
    const around = sheet.current?.getBoundingClientRect();
    const note = own.current?.getBoundingClientRect();
    if (around === undefined || note === undefined) return;
    const place = card.getBoundingClientRect();
    const isBelow = place.bottom + note.height + 12 < window.innerHeight;
    const left = Math.max(8, Math.min(place.left, document.documentElement.clientWidth - note.width - 16));
    setAt({
      left: left - around.left,
      top: (isBelow ? place.bottom + 6 : place.top - note.height - 6) - around.top,
    });
  }, [card, sheet]);
  const misfit = sayMisfit(item);
  return (
    <div
      ref={own}
      className={styles.note}
      style={at === null ? { visibility: 'hidden' } : { left: at.left, top: at.top }}
      aria-hidden="true"
    >
      <p className={styles.name}>
        <strong>{item.of.vehicle}</strong>
        <GradeMark grade={gradeOf(item)} />
      </p>
      <p>{sayWhen(item.of)}</p>
      {isPast(item) && <p className={styles.wrong}>Over, and nobody has said what became of it.</p>}
      {misfit !== null && <p className={styles.wrong}>{misfit}</p>}
      {item.kind === 'draft' && (
        <p>
          Chance of failing before this day {formatPercent(item.of.chance_before)}, in all{' '}
          {formatPercent(item.of.chance_by_end)} if nobody looks
        </p>
      )}
      {item.kind === 'booking' && item.of.note !== null && <p className={styles.soft}>{item.of.note}</p>}
      <Distance item={item} />
    </div>
  );
}

function Distance({ item }: { item: Item }) {
  const units = useUnits();
  const row = useVehicle(item.of.vehicle).data?.assessment;
  if (row == null) return <p className={styles.soft}> </p>;
  const scaleKm = scaleForHorizon(usualHorizonKm, units);
  const words = describeRail(
    shapeRail(row.km_to_limit, row.grade, scaleKm),
    row.km_to_limit,
    units,
    row.missing[0] ?? null,
  );
  const days = row.days_to_limit.p50;
  return (
    <>
      <DistanceRail
        distance={row.km_to_limit}
        grade={row.grade}
        horizonKm={usualHorizonKm}
        scaleKm={scaleKm}
        showsReason={false}
      />
      <p className={styles.soft}>
        {words}
        {days !== null && days > 0 && `, about ${formatDays(days)}`}
      </p>
    </>
  );
}
