import type { ReadingInput } from '#server/contract/readings.ts';

/** A reading as a gateway would send it, with what the test is about in `changes`. */
export const makeReading = (changes: Partial<ReadingInput> & Record<string, unknown> = {}): ReadingInput => ({
  vehicle: 'B-1207',
  at: '2026-03-04T05:06:07Z',
  odometer_km: 120_345.5,
  slip_rpm: 18.25,
  duty_pct: 85,
  fluid_c: 84.5,
  ...changes,
});

export const minutesLater = (minutes: number): string =>
  new Date(Date.parse('2026-03-04T05:06:07Z') + minutes * 60_000).toISOString();

export const toNdjson = (values: unknown[]): string =>
  values.map((value) => JSON.stringify(value)).join('\n');
