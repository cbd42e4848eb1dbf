import type { FleetLivesQuery, LifeGrouping } from '#server/contract/lives.ts';
import type { LivesAsk } from '#web/api/use-lives.ts';
import type { LifeFitKind } from '#web/charts/life-paper.ts';
import { isDay } from '#web/format/days.ts';
import { joinIds, splitIds } from '#web/ui/joined-ids.ts';
import { countWords, groupingWords, recordsWords, sourceWords } from './lives-words.ts';

/** What the address of the screen says; several with commas between. */
export interface LivesSearch {
  group_by?: LifeGrouping;
  platform?: string;
  depot?: string;
  source?: string;
  from?: string;
  to?: string;
  records?: Exclude<FleetLivesQuery['records'], 'first_reading'>;
  count?: Exclude<FleetLivesQuery['count'], 'failed'>;
  fit?: Exclude<LifeFitKind, 'weibull'>;
  /** the group whose modes are shown; the one with most failures where left out */
  of?: string;
}

export type LivesPatch = { [K in keyof LivesSearch]?: LivesSearch[K] | undefined };

const has = <T extends string>(words: Record<T, unknown>, value: unknown): value is T =>
  typeof value === 'string' && Object.hasOwn(words, value);

/** Takes what is sound from an address that anyone may have typed; what is not falls away by itself. */
export function parseLivesSearch(raw: Record<string, unknown>): LivesSearch {
  const search: LivesSearch = {};
  if (has(groupingWords, raw.group_by)) search.group_by = raw.group_by;
  for (const key of ['platform', 'depot'] as const) {
    const ids = joinIds(splitIds(raw[key]));
    if (ids !== undefined) search[key] = ids;
  }
  const sources = joinIds(splitIds(raw.source).filter((one) => has(sourceWords, one)));
  if (sources !== undefined) search.source = sources;
  if (isDay(raw.from)) search.from = raw.from;
  if (isDay(raw.to) && (search.from === undefined || raw.to >= search.from)) search.to = raw.to;
  if (has(recordsWords, raw.records) && raw.records !== 'first_reading') search.records = raw.records;
  if (has(countWords, raw.count) && raw.count !== 'failed') search.count = raw.count;
  if (raw.fit === 'lognormal') search.fit = 'lognormal';
  if (typeof raw.of === 'string' && raw.of !== '') search.of = raw.of;
  return search;
}

export const patchLivesSearch = (search: LivesSearch, patch: LivesPatch): LivesSearch =>
  parseLivesSearch({ ...search, ...patch });

/** What of it the server is asked; the rest is how the answer is shown. */
export const askOf = ({ fit: _fit, of: _of, ...asked }: LivesSearch): LivesAsk => ({ ...asked });

/** Whether lives are left out by choice. */
export const isNarrowed = ({ platform, depot, source, from, to }: LivesSearch): boolean =>
  [platform, depot, source, from, to].some((one) => one !== undefined);
