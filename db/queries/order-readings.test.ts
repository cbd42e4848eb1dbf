import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { orderReadings } from './order-readings.ts';
import { ReadingColumns } from './reading-columns.ts';

const nothing = {
  odometerKm: 1,
  slipRpm: 1,
  dutyPct: 85,
  fluidC: null,
  loadPct: null,
  torquePct: null,
  throttlePct: null,
  speedKmh: null,
  seconds: null,
  gear: null,
  shifting: null,
  codes: null,
};
/** Keys fall where unit numbers rise. */
const keyOf = (unit: string) => 100 - Number(unit);

describe('rows of a batch', () => {
  it('are put by vehicle and time, each vehicle and time once, in runs of a vehicle', () => {
    const row = fc.record({ unit: fc.integer({ min: 0, max: 5 }).map(String), ms: fc.nat(12) });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 200 }), (rows) => {
        const columns = new ReadingColumns();
        for (const [i, { unit, ms }] of rows.entries())
          columns.push(unit, { ...nothing, at: new Date(ms) }, i);
        const keys = Int32Array.from(columns.units, keyOf);
        const { order, runs, repeated } = orderReadings(columns, keys);

        const nameOf = (i: number) => `${keyOf(rows[i]?.unit ?? '')} ${rows[i]?.ms}`;
        const firsts = new Map<string, number>();
        for (const i of rows.keys()) if (!firsts.has(nameOf(i))) firsts.set(nameOf(i), i);
        const expected = [...firsts.values()].sort(
          (a, b) =>
            keyOf(rows[a]?.unit ?? '') - keyOf(rows[b]?.unit ?? '') ||
            (rows[a]?.ms ?? 0) - (rows[b]?.ms ?? 0),
        );
        expect([...order]).toEqual(expected);
        expect(runs.flatMap(({ from, to }) => [...order.subarray(from, to)])).toEqual(expected);
        for (const { vehicle, from, to } of runs)
          for (const i of order.subarray(from, to)) expect(keyOf(rows[i]?.unit ?? '')).toBe(vehicle);
        expect(repeated.map(({ row: i, first }) => [nameOf(i), order[first]]).sort()).toEqual(
          [...rows.keys()]
            .filter((i) => firsts.get(nameOf(i)) !== i)
            .map((i) => [nameOf(i), firsts.get(nameOf(i))])
            .sort(),
        );
      }),
    );
  });
});
