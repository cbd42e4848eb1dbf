import { type RefObject, useLayoutEffect, useRef, useSyncExternalStore } from 'react';
import type { Carry } from './carry.ts';
import styles from './drop-frame.module.css';
import type { Grid } from './lay-out-grid.ts';

interface Props {
  carry: Carry;
  sheet: RefObject<HTMLElement | null>;
  grid: Grid;
}

/** Where the carried card would come to lie, and from what time; or why it cannot. */
export function DropFrame({ carry, sheet, grid }: Props) {
  const carried = useSyncExternalStore(carry.subscribe, carry.get);
  const frame = useRef<HTMLDivElement>(null);
  const place = carried?.place ?? null;
  useLayoutEffect(() => {
    const own = frame.current;
    const around = sheet.current;
    if (own === null || around === null || place === null) return;
    const row = grid.rows.findIndex(({ depot, bay }) => depot.id === place.depot && bay === place.bay);
    const day = grid.days.findIndex((one) => one.day === place.day);
    const cell = around.querySelector(`[data-row="${row}"][data-day="${day}"]`);
    if (cell === null) return;
    const at = cell.getBoundingClientRect();
    const from = around.getBoundingClientRect();
    own.style.translate = `${at.left - from.left}px ${at.top - from.top}px`;
    own.style.width = `${at.width}px`;
    own.style.height = `${at.height}px`;
  }, [place, grid, sheet]);
  if (carried === null || place === null) return null;
  const { room, item } = carried;
  return (
    <div ref={frame} className={styles.frame} data-fits={room?.fits} data-by={carried.by} aria-hidden="true">
      <span className={styles.words}>
        {carried.by !== 'mouse' && <b>{item.of.vehicle} </b>}
        {room?.fits === true ? `from ${room.from}` : room?.why}
      </span>
    </div>
  );
}
