import { formatDay, formatHours } from '#web/format/format-day.ts';
import { gradeOf, type Item, isDone, isPast, sayMisfit } from './plan-items.ts';

/** A card in words: unit, grade, when and where, and what is the matter with it. */
export function sayItem(item: Item): string {
  const misfit = sayMisfit(item);
  return [
    `${item.of.vehicle}, ${gradeOf(item)}`,
    item.kind === 'draft' ? `proposed${item.of.ticked ? '' : ', not ticked'}` : null,
    sayWhen(item.of),
    isDone(item) ? 'done' : null,
    isPast(item) ? 'over, and nobody has said what became of it' : null,
    misfit === null ? null : misfit.replace(/\.$/, ''),
  ]
    .filter((part) => part !== null)
    .join('; ');
}

interface When {
  day: string | null;
  from: string | null;
  to: string | null;
  bay: number | null;
  hours: number | null;
}

/** 'Thu 5 Mar, 07:00 to 10:00, bay 2' */
export function sayWhen({ day, from, to, bay, hours }: When): string {
  if (day === null) return hours === null ? 'waits for a day' : `waits for a day, ${formatHours(hours)}`;
  return [
    formatDay(day),
    from === null || to === null ? null : `${from} to ${to}`,
    bay === null ? null : `bay ${bay}`,
  ]
    .filter((part) => part !== null)
    .join(', ');
}
