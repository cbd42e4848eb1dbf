import { lifeInput } from '#server/contract/fleet.ts';
import type { FieldError } from '#server/contract/problems.ts';
import type { Failure } from '#server/contract/set-up-files/failure-input.ts';
import type { Life, LifeRow } from '#server/services/fleet/life-rows.ts';
import { nameMode } from '#server/services/fleet/name-mode.ts';
import type { Element } from '#server/services/fleet/read-elements.ts';
import { compareWithRecord } from './compare-with-record.ts';
import { findLifeAt } from './find-life-at.ts';
import { type PlacedLife, sayKm } from './placed-life.ts';

export interface PlacedFailures {
  lives: Element<Life>[];
  faults: FieldError[];
}

/** Mileages of one change that two people wrote down, or that went through miles and back. */
const SAME_KM = 1;

/**
 * The changes of one vehicle's converters as lives: each ends the life that ran then, which is the original one from 0 km
 * where none is on record, and begins the next. What is on record stays, what it lacks is filled in, and what contradicts it
 * is a fault.
 */
export function placeFailures(
  failures: readonly Element<Failure>[],
  onRecord: readonly LifeRow[],
): PlacedFailures {
  const lives: PlacedLife[] = onRecord.map((life) => ({ ...life, line: null }));
  const touched = new Set<PlacedLife>();
  const faults: FieldError[] = [];
  let last: { line: number; km: number } | null = null;
  for (const { line, value } of failures.toSorted((a, b) => a.value.odometer_km - b.value.odometer_km)) {
    const complain = (field: string, message: string) => faults.push({ line, field, message });
    if (last !== null && value.odometer_km - last.km < SAME_KM) {
      complain('odometer_km', `is the change of line ${last.line} again: both are at ${sayKm(last.km)}`);
      continue;
    }
    last = { line, km: value.odometer_km };
    const found = findLifeAt(lives, value.odometer_km, SAME_KM);
    if ('fault' in found) {
      complain('odometer_km', found.fault);
      continue;
    }
    const { km } = found;
    const ended = found.life ?? makeOriginal(line);
    if (found.life === null) lives.push(ended);
    const begun = lives.find(({ fittedKm }) => fittedKm === km) ?? null;
    const contradictions = compareWithRecord(value, km, ended, begun);
    if (contradictions.length > 0) {
      for (const { field, message } of contradictions) complain(field, message);
      continue;
    }
    end(ended, value, km, line);
    touched.add(ended);
    if (value.next_source === null) continue;
    const next = begun ?? makeNext(value, km, line);
    if (begun === null) lives.push(next);
    else fillIn(begun, value, line);
    touched.add(next);
  }
  return faults.length > 0 ? { lives: [], faults } : check([...touched], failures);
}

const makeOriginal = (line: number): PlacedLife => ({
  fittedKm: 0,
  fittedAt: null,
  source: 'original',
  removedKm: null,
  removedAt: null,
  ended: null,
  mode: null,
  supplier: null,
  runKm: null,
  line,
});

const makeNext = (value: Failure, km: number, line: number): PlacedLife => ({
  ...makeOriginal(line),
  fittedKm: km,
  fittedAt: toDate(value.day),
  source: value.next_source ?? 'new',
  supplier: value.next_supplier ?? null,
  runKm: value.next_run_km ?? null,
});

const toDate = (text: string | null | undefined): Date | null => (text == null ? null : new Date(text));

function end(life: PlacedLife, { day, ended, mode }: Failure, km: number, line: number): void {
  // One that ended only because the next was fitted has the day of that.
  const wasEnded = life.removedKm === km;
  life.removedKm = km;
  life.removedAt = (wasEnded ? life.removedAt : null) ?? toDate(day);
  life.ended ??= ended ?? 'failed';
  life.mode ??= nameMode(mode ?? null);
  life.line ??= line;
}

function fillIn(life: PlacedLife, value: Failure, line: number): void {
  life.fittedAt ??= toDate(value.day);
  life.supplier ??= value.next_supplier ?? null;
  life.runKm ??= value.next_run_km ?? null;
  life.line ??= line;
}

const COLUMNS: Record<string, string> = {
  fitted_at: 'day',
  removed_at: 'day',
  source: 'next_source',
  supplier: 'next_supplier',
  run_km: 'next_run_km',
  ended: 'ended',
  mode: 'mode',
};

/** What is right by itself may not fit what is on record. */
function check(lives: readonly PlacedLife[], failures: readonly Element<Failure>[]): PlacedFailures {
  const vehicle = failures[0]?.value.vehicle ?? '';
  const faults: FieldError[] = [];
  const elements = lives.flatMap((life) => {
    const line = life.line ?? failures[0]?.line ?? 1;
    const input = {
      vehicle,
      fitted_km: life.fittedKm,
      fitted_at: life.fittedAt?.toISOString() ?? null,
      source: life.source,
      removed_km: life.removedKm,
      removed_at: life.removedAt?.toISOString() ?? null,
      ended: life.ended,
      mode: life.mode,
      supplier: life.supplier,
      run_km: life.runKm,
    };
    const read = lifeInput.safeParse(input);
    if (read.success) return [{ line, input, value: read.data }];
    for (const { path, message } of read.error.issues)
      faults.push({ line, field: COLUMNS[String(path[0])] ?? 'odometer_km', message });
    return [];
  });
  return { lives: faults.length > 0 ? [] : elements, faults };
}
