import type { Outlook } from '#server/contract/ranking.ts';
import { formatWhole } from '#web/format/format-number.ts';

/** The head of the list in one sentence. */
export function sayWhatIsDue(counts: Outlook['counts']): string {
  const all = Object.values(counts).reduce((sum, n) => sum + n, 0);
  const due = counts.hold + counts.book;
  const fleet = `${formatWhole(all)} ${all === 1 ? 'vehicle' : 'vehicles'}`;
  if (all === 0) return 'No vehicle matches.';
  if (due === 0) return `None of ${fleet} needs a bay yet.`;
  const needs = `${formatWhole(due)} of ${fleet} ${due === 1 ? 'needs' : 'need'} a bay`;
  if (counts.hold === 0) return `${needs}, none before its next run.`;
  const whose = counts.hold === 1 ? 'its' : 'their';
  return due === counts.hold
    ? `${needs} before ${whose} next run.`
    : `${needs}, ${formatWhole(counts.hold)} of them before ${whose} next run.`;
}
