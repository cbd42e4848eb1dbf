import { WANTED_FLOW_L_MIN } from './judge-cooler.ts';

/** What was done about debris in cooler and lines. */
export interface CoolerRecord {
  done: 'replaced' | 'flushed' | 'not_done';
  minutes: number | null;
  method: 'pumped_through_filter' | 'compressed_air' | 'spray_can' | 'other' | null;
  bothDirections: boolean;
  /** the catch filter stayed clean at the end */
  filterClean: boolean;
  /** at idle, after the work */
  flowAfterLMin: number | null;
}

export type CoolerLack =
  | 'not_done'
  | 'method'
  | 'method_does_not_count'
  | 'both_directions'
  | 'filter_clean'
  | 'minutes'
  | 'flow_after';

export interface CoolerRecordJudged {
  good: boolean;
  /** what is missing for a good record */
  lacks: CoolerLack[];
  /** good, though shorter than usual: to be told */
  short: boolean;
}

/** Usual after a converter came apart, 1.5 to 2 h; common practice, no source. */
export const USUAL_FLUSH_MINUTES = 90;

/**
 * Whether cooler and lines were dealt with.
 *
 * Good: replaced; or flushed by pumping through a filter, in both directions, for minutes that are given, until the catch
 * filter stayed clean. Compressed air alone and spray cans never count. A cooler that flows too little afterwards is not
 * done, flushed or replaced.
 *
 * @param record what was noted; null where nothing was
 * @returns whether it is good, what it lacks, and whether it was shorter than the usual 90 min
 * Source: common practice, no source. Edges: fewer minutes than usual are good with a clean filter, and told; 0 min lacks
 * them; a flow that was not measured is not asked for. Errors: none.
 * @example judgeCoolerRecord(null) // { good: false, lacks: ['not_done'], short: false }
 */
export function judgeCoolerRecord(record: CoolerRecord | null): CoolerRecordJudged {
  if (record === null || record.done === 'not_done')
    return { good: false, lacks: ['not_done'], short: false };
  const lacks = [
    ...(record.done === 'flushed' ? flushLacks(record) : []),
    ...(record.flowAfterLMin !== null && record.flowAfterLMin < WANTED_FLOW_L_MIN
      ? (['flow_after'] as const)
      : []),
  ];
  const good = lacks.length === 0;
  const short = good && record.done === 'flushed' && (record.minutes ?? 0) < USUAL_FLUSH_MINUTES;
  return { good, lacks, short };
}

function flushLacks(record: CoolerRecord): CoolerLack[] {
  const lacks: CoolerLack[] = [];
  if (record.method === null) lacks.push('method');
  else if (record.method !== 'pumped_through_filter') lacks.push('method_does_not_count');
  if (!record.bothDirections) lacks.push('both_directions');
  if (!record.filterClean) lacks.push('filter_clean');
  if (record.minutes === null || record.minutes <= 0) lacks.push('minutes');
  return lacks;
}
