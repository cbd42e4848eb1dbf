import type { Thresholds } from '#server/contract/settings.ts';
import { type NumberRule, readNumber } from './read-number.ts';

export type ThresholdField = keyof Thresholds;
/** What stands in the fields: shares in percent. */
export type ThresholdsDraft = Record<ThresholdField, string>;

export const thresholdFields = ['hold_chance', 'book_chance', 'evidence_q', 'quiet_days'] as const;

/** As they are unless somebody says otherwise; the server's own, which holds them too. */
export const usualThresholds: Thresholds = {
  evidence_q: 0.05,
  hold_chance: 0.25,
  book_chance: 0.06,
  quiet_days: 30,
};

const rules: Record<ThresholdField, NumberRule> = {
  hold_chance: { least: 1, most: 99, unit: '%' },
  book_chance: { least: 1, most: 99, unit: '%' },
  evidence_q: { least: 0.1, most: 50, unit: '%' },
  quiet_days: { least: 14, most: 365, step: 1, unit: 'days' },
};

const isShare = (field: ThresholdField): boolean => field !== 'quiet_days';
/** 0.07 * 100 is 7.000000000000001. */
const tidy = (value: number): number => Math.round(value * 1e6) / 1e6;

export const toDraft = (thresholds: Thresholds): ThresholdsDraft =>
  Object.fromEntries(
    thresholdFields.map((field) => [
      field,
      String(isShare(field) ? tidy(thresholds[field] * 100) : thresholds[field]),
    ]),
  ) as ThresholdsDraft;

/** The thresholds that stand in the fields, or what is wrong with each. */
export function readDraft(draft: ThresholdsDraft): {
  value: Thresholds | null;
  faults: Partial<Record<ThresholdField, string>>;
} {
  const read = thresholdFields.map((field) => [field, readNumber(draft[field], rules[field])] as const);
  const faults = Object.fromEntries(
    read.flatMap(([field, { fault }]) => (fault === undefined ? [] : [[field, fault]])),
  );
  if (Object.keys(faults).length > 0) return { value: null, faults };
  const value = Object.fromEntries(
    read.map(([field, one]) => [field, isShare(field) ? tidy((one.value ?? 0) / 100) : one.value]),
  ) as Thresholds;
  return { value, faults };
}

/** What is allowed and yet likely a slip. */
export function warnOf({ hold_chance: hold, book_chance: book }: Thresholds): string | null {
  if (hold >= book) return null;
  return 'A vehicle is then held at a smaller chance than one at which it is booked: some would have to stay in the depot that nobody was asked to book before.';
}
