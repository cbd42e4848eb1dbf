import type { Outlook } from '#server/contract/ranking.ts';
import { formatWhole } from '#web/format/format-number.ts';

/** The head of the list in one sentence. */
export function sayWhatIsDue(counts: Outlook['counts'], horizon: string | null): string {
  const all = Object.values(counts).reduce((sum, n) => sum + n, 0);
  const due = counts.hold + counts.book;
  const fleet = `${formatWhole(all)} ${all === 1 ? 'vehicle' : 'vehicles'}`;
  const within = horizon === null ? '' : ` within ${horizon}`;
  if (all === 0) return 'No vehicle matches.';
  if (due === 0) return `None of ${fleet} needs a bay${within}.`;
  const held =
    counts.hold === 0
      ? ''
      : `, ${formatWhole(counts.hold)} of them before ${counts.hold === 1 ? 'its' : 'their'} next run`;
  return `${formatWhole(due)} of ${fleet} ${due === 1 ? 'needs' : 'need'} a bay${within}${held}.`;
}
