import type { z } from 'zod';
import { readingInput } from '#server/contract/readings.ts';

type PlainReading = z.output<typeof readingInput>;

interface Bounded {
  minValue: number | null;
  maxValue: number | null;
}

/** Numeric fields with the bounds that the schema gives them. */
export const boundedNumbers = Object.entries(readingInput.shape).flatMap(([field, schema]) => {
  const inner = 'unwrap' in schema ? schema.unwrap() : schema;
  if (inner.type !== 'number') return [];
  const { minValue, maxValue } = inner as unknown as Bounded;
  return [{ field: field as keyof PlainReading, low: minValue ?? Number.NaN, high: maxValue ?? Number.NaN }];
});

const PRINTABLE = /^[!-~](?:[ -~]{0,62}[!-~])?$/;
/** Days that every month has, so that no calendar is needed. */
const TIME =
  /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|1\d|2[0-8])T(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d(?:\.\d{1,9})?Z$/;

/**
 * True only for a value that the schema certainly accepts as it is. It spares most lines the schema, which takes four
 * fifths of the time of checking; what it is not sure of goes there, and so does every message. The tests hold it
 * against the schema.
 */
export function isPlainReading(value: object): value is PlainReading {
  const reading = value as { [field in keyof PlainReading]: unknown };
  if (typeof reading.vehicle !== 'string' || !PRINTABLE.test(reading.vehicle)) return false;
  if (typeof reading.at !== 'string' || !TIME.test(reading.at)) return false;
  if (reading.duty_pct === undefined || reading.slip_rpm === undefined) return false;
  if ((reading.odometer_km === undefined) === (reading.odometer_mi === undefined)) return false;
  if (reading.fluid_c !== undefined && reading.fluid_f !== undefined) return false;
  if (reading.speed_kmh !== undefined && reading.speed_mph !== undefined) return false;
  if (reading.shifting !== undefined && typeof reading.shifting !== 'boolean') return false;
  if (reading.gear !== undefined && !Number.isInteger(reading.gear)) return false;
  if (reading.codes !== undefined && !(Array.isArray(reading.codes) && reading.codes.length === 0))
    return false;
  for (const { field, low, high } of boundedNumbers) {
    const number = reading[field];
    if (number !== undefined && !(typeof number === 'number' && number >= low && number <= high))
      return false;
  }
  return true;
}
