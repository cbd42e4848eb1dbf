import type { Digest } from '#server/contract/digest.ts';

type Told = Pick<
  Digest,
  | 'uncovered_holds'
  | 'newly_on_hold'
  | 'got_worse'
  | 'got_worse_more'
  | 'newly_booked'
  | 'inspected'
  | 'gone_quiet'
  | 'as_of'
>;

/** The week in one sentence, the most urgent first. */
export function digestSentence(told: Told): string {
  if (told.as_of === null) return 'No vehicle has been assessed yet.';
  const counts: [number, string, string][] = [
    [told.uncovered_holds?.length ?? 0, 'waits on hold without a day', 'wait on hold without a day'],
    [told.newly_on_hold.length, 'went on hold', 'went on hold'],
    [told.got_worse.length + told.got_worse_more, 'got worse', 'got worse'],
    [told.newly_booked.length, 'was booked', 'were booked'],
    [told.inspected.length, 'was inspected', 'were inspected'],
    [told.gone_quiet.vehicles.length, 'has gone quiet', 'have gone quiet'],
  ];
  const parts = counts
    .filter(([n]) => n > 0)
    .map(
      ([n, one, many], i) => `${n}${i > 0 ? '' : n === 1 ? ' vehicle' : ' vehicles'} ${n === 1 ? one : many}`,
    );
  if (parts.length === 0) return 'Nothing new: no vehicle went on hold or got worse, and none was booked.';
  const last = parts.pop();
  return `${parts.length === 0 ? last : `${parts.join(', ')} and ${last}`}.`;
}
