import { formatDay, formatHours } from '#web/format/format-day.ts';
import { type Item, isDone, isPast, sayMisfit } from './plan-items.ts';

/** What a card does not show: when and where, and what is the matter with it. */
export function sayRest(item: Item): string {
  const misfit = sayMisfit(item);
  const parts = [
    sayWhen(item.of),
    item.kind === 'draft' ? `proposed${item.of.ticked ? '' : ', not ticked'}` : null,
    isDone(item) ? 'done' : null,
    isPast(item) ? 'over, and nobody has said what became of it' : null,
    misfit === null ? null : misfit.replace(/\.$/, ''),
  ];
  return `, ${parts.filter((part) => part !== null).join('; ')}`;
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
