import type { CoolerDue } from '#server/engine/diagnosis/is-cooler-due.ts';
import type { CoolerLack } from '#server/engine/diagnosis/judge-cooler-record.ts';

/** Whether cooler and lines must be dealt with, and why. */
export function coolerDueWords(due: CoolerDue): string {
  if (due.because === 'pan_lining')
    return 'Due: lining in the pan reaches the cooler, and from there the new converter.';
  if (due.because === 'pan_metal')
    return 'Due: metal in the pan reaches the cooler, and from there the new converter.';
  if (due.because === 'cause')
    return 'Due: the converter came apart, and what it shed is in cooler and lines too.';
  return due.advised
    ? 'Not due: no lining or metal was noted. Flushing is still good practice with every new converter.'
    : 'Not due: no lining or metal was noted.';
}

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

/** Told of a flush that is good, though shorter than usual. */
export const SHORT_FLUSH_WORDS =
  'Shorter than the 1.5 to 2 h that are usual after a converter came apart; taken because the catch filter stayed clean.';
