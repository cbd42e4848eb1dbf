import type { Outlook } from '#server/contract/ranking.ts';
import { formatWhole } from '#web/format/format-number.ts';

/** The head of the list for a shop. */
export function sayWhatIsSent(counts: Outlook['counts']): string {
  const all = Object.values(counts).reduce((sum, n) => sum + n, 0);
  if (all === 0) return 'No vehicle matches.';
  const sent = all === 1 ? '1 vehicle is sent to you' : `${formatWhole(all)} vehicles are sent to you`;
  if (counts.hold === 0) return `${sent}.`;
  if (counts.hold === all)
    return `${sent}. ${all === 1 ? 'It is' : 'All are'} not to be driven before an inspection.`;
  return `${sent}. ${formatWhole(counts.hold)} of them ${counts.hold === 1 ? 'is' : 'are'} not to be driven before an inspection.`;
}
