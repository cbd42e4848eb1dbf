import { kmFromMiles } from '#server/contract/units.ts';
import { lifeSources, outcomes } from '#server/contract/words.ts';
import type { CloseInput } from '#web/api/use-packet.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import { readNumber } from '#web/format/read-number.ts';
import type { Units } from '#web/format/units.ts';
import type { DraftFields } from '#web/ui/kept-drafts.ts';

/** What the job is, as far as it decides which fields are asked for. */
export interface CloseCase {
  /** a converter or a whole transmission stands among the parts */
  isReplaced: boolean;
  /** nobody has registered the converter that was removed */
  isOldUnknown: boolean;
  /** due, and not recorded well enough */
  lacksCooler: boolean;
}

export type CloseRead =
  | { input: Omit<CloseInput, 'as_measured'>; faults?: undefined }
  | { input?: undefined; faults: DraftFields };

/** Bounds are the contract's, in km. */
const mostKm = 5_000_000;
const leastCalmKm = 500;
const mostCalmKm = 50_000;
export const usualCalmKm = 5000;
const leastWords = 3;

export const toKm = (value: number, units: Units): number =>
  units.distance === 'mi' ? Math.round(kmFromMiles(value) * 10) / 10 : value;
const bound = (km: number, units: Units): number => Math.round(toReaderDistance(km, units));

export function readClose(fields: DraftFields, units: Units, job: CloseCase): CloseRead {
  const faults: Record<string, string> = {};
  const words = (name: string): string => (fields[name] ?? '').trim();
  const distance = (name: string, least: number, most: number): number => {
    const read = readNumber(words(name), {
      least: bound(least, units),
      most: bound(most, units),
      unit: units.distance,
    });
    if (read.value === null) faults[name] = read.fault;
    // A bound that was rounded to miles must not fall outside of its km.
    return read.value === null ? 0 : Math.min(most, Math.max(least, toKm(read.value, units)));
  };
  const outcome = outcomes.find((one) => one === fields.outcome);
  if (outcome === undefined) faults.outcome = 'Choose one.';
  const odometer_km = distance('odometer_km', 0, mostKm);
  const isCalm = outcome === 'no_fault_found' || outcome === 'declined';
  const calm_km = isCalm && words('calm_km') !== '' ? distance('calm_km', leastCalmKm, mostCalmKm) : null;
  const ended = (['failed', 'preventive'] as const).find((one) => one === fields.ended);
  const asksEnd = outcome === 'repaired' && job.isReplaced;
  if (asksEnd && ended === undefined) faults.ended = 'Say how the old converter ended.';
  if (outcome === 'declined' && words('reason').length < leastWords)
    faults.reason = 'Say who declined the work, and why.';
  const asksCooler = job.lacksCooler;
  if (asksCooler && words('without_cooler').length < leastWords)
    faults.without_cooler = 'Record the cooler above, or say why it is closed without.';
  const workAt = words('work_at') === '' ? null : new Date(words('work_at'));
  if (workAt !== null && Number.isNaN(workAt.getTime())) faults.work_at = 'This is no time.';
  const source = lifeSources.find((one) => one === fields.old_source);
  const oldKm =
    asksEnd && job.isOldUnknown && words('old_fitted_km') !== ''
      ? distance('old_fitted_km', 0, mostKm)
      : null;
  if (oldKm !== null && source === undefined) faults.old_source = 'Choose one.';
  if (outcome === undefined || Object.keys(faults).length > 0) return { faults };
  return {
    input: {
      outcome,
      odometer_km,
      reason: words('reason'),
      without_cooler: asksCooler ? words('without_cooler') : '',
      ...(workAt === null ? {} : { work_at: workAt.toISOString() }),
      ...(asksEnd && ended !== undefined ? { ended } : {}),
      ...(calm_km === null ? {} : { calm_km }),
      ...(oldKm !== null && source !== undefined ? { old_converter: { fitted_km: oldKm, source } } : {}),
    },
  };
}
