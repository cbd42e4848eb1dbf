import type { FleetLivesReply } from '#server/contract/lives.ts';
import { formatDayAndYear } from '#web/format/format-day.ts';
import { splitIds } from '#web/ui/joined-ids.ts';
import type { LivesSearch } from './lives-search.ts';
import { countWords, groupingWords, recordsWords } from './lives-words.ts';

/** Which lives are shown, in words, for pictures and files that leave the screen. */
export function sayLivesChoice(search: LivesSearch, choices: FleetLivesReply['choices']): string {
  const named = (what: string, ids: string | undefined, all: readonly { id: string; name: string }[]) =>
    ids === undefined
      ? []
      : [
          `${what} ${splitIds(ids)
            .map((id) => all.find((one) => one.id === id)?.name ?? id)
            .join(', ')}`,
        ];
  const { from, to } = search;
  return [
    search.group_by === undefined ? 'All together' : `Compared by ${groupingWords[search.group_by]}`,
    ...named('platforms', search.platform, choices.platforms),
    ...named('depots', search.depot, choices.depots),
    ...named('units', search.source, []),
    ...(from === undefined ? [] : [`watched from ${formatDayAndYear(from)}`]),
    ...(to === undefined ? [] : [`watched to ${formatDayAndYear(to)}`]),
    `lives count ${recordsWords[search.records ?? 'first_reading'].label}`,
    countWords[search.count ?? 'failed'].said,
  ].join('; ');
}
