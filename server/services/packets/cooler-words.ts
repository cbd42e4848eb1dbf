import type { CoolerDue } from '#server/engine/diagnosis/is-cooler-due.ts';
import type { CoolerLack, CoolerRecordJudged } from '#server/engine/diagnosis/judge-cooler-record.ts';

/** Whether cooler and lines must be dealt with, and why; with a good record, that it is done. */
export function coolerDueWords(due: CoolerDue, record?: CoolerRecordJudged): string {
  if (!due.due)
    return due.advised
      ? 'Not due: no lining or metal was noted. Flushing is still good practice with every new converter.'
      : 'Not due: no lining or metal was noted.';
  const why = `Due: ${dueWords[due.because ?? 'cause']}.`;
  if (record === undefined || !record.good) return why;
  return record.short
    ? `${why} Done, in less than the 1.5 to 2 h that are usual after a converter came apart: taken because the catch filter stayed clean (common practice, no source).`
    : `${why} Done.`;
}

const dueWords: Record<NonNullable<CoolerDue['because']>, string> = {
  pan_lining: 'lining in the pan reaches the cooler, and from there the new converter',
  pan_metal: 'metal in the pan reaches the cooler, and from there the new converter',
  cause: 'the converter came apart, and what it shed is in cooler and lines too',
};

const lackWords: Record<CoolerLack, string> = {
  not_done: 'that cooler and lines were flushed or replaced',
  method: 'how it was flushed',
  method_does_not_count:
    'flushing by pumping through a filter (compressed air alone, spray cans and other ways do not count)',
  both_directions: 'flushing in both directions',
  filter_clean: 'a catch filter that stayed clean at the end',
  minutes: 'for how many minutes it was flushed',
  flow_after: 'enough flow afterwards (at least 2.8 L/min at idle)',
};

/** What a record of the cooler lacks; empty where it lacks nothing. */
export function coolerLacksWords(lacks: readonly CoolerLack[]): string {
  return lacks.length === 0 ? '' : `The record lacks: ${lacks.map((lack) => lackWords[lack]).join('; ')}.`;
}
