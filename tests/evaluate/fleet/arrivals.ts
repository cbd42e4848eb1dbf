import { DAY_MS } from './drive-calendar.ts';
import type { FleetSpan } from './plan-vehicle.ts';
import { NO_GEAR, type ReadingTable, TROUBLE_CODES } from './reading-table.ts';

type Batch = { atMs: number; readings: object[] };

/** Batches of one day each, made when asked for. What would arrive after the end of the history never does. */
export function listArrivals(table: ReadingTable, units: string[], span: FleetSpan): Iterable<Batch> {
  const { order, starts } = sortByArrival(table, span.days);
  return {
    *[Symbol.iterator]() {
      for (let day = 0; day < span.days; day++) {
        const readings: object[] = [];
        for (let i = starts[day] ?? 0; i < (starts[day + 1] ?? 0); i++)
          readings.push(toJson(table, order[i] ?? 0, units, span.fromMs));
        yield { atMs: span.fromMs + (day + 1) * DAY_MS, readings };
      }
    },
  };
}

/** Rows in order of the day of arrival, repeated ones twice: a counting sort. */
function sortByArrival(table: ReadingTable, days: number): { order: Uint32Array; starts: Uint32Array } {
  const starts = new Uint32Array(days + 1);
  const { arrivalDay, againDay, rows } = table;
  const count = (day: number) => {
    if (day < days) starts[day + 1] = (starts[day + 1] ?? 0) + 1;
  };
  for (let row = 0; row < rows; row++) {
    count(arrivalDay[row] ?? days);
    count(againDay[row] ?? days);
  }
  for (let day = 0; day < days; day++) starts[day + 1] = (starts[day + 1] ?? 0) + (starts[day] ?? 0);
  const next = starts.slice();
  const order = new Uint32Array(starts[days] ?? 0);
  const place = (row: number, day: number) => {
    if (day >= days) return;
    const at = next[day] ?? 0;
    order[at] = row;
    next[day] = at + 1;
  };
  for (let row = 0; row < rows; row++) {
    place(row, arrivalDay[row] ?? days);
    place(row, againDay[row] ?? days);
  }
  return { order, starts };
}

function toJson(table: ReadingTable, row: number, units: string[], fromMs: number): object {
  const reading: Record<string, unknown> = {
    vehicle: units[table.vehicle[row] ?? 0],
    at: `${new Date(fromMs + (table.second[row] ?? 0) * 1000).toISOString().slice(0, 19)}Z`,
    odometer_km: table.odometerKm[row],
    slip_rpm: clean(table.slipRpm[row]),
    duty_pct: clean(table.dutyPct[row]),
    fluid_c: table.fluidC[row],
  };
  addKnown(reading, 'load_pct', table.loadPct[row]);
  addKnown(reading, 'torque_pct', table.torquePct[row]);
  addKnown(reading, 'speed_kmh', table.speedKmh[row]);
  const gear = table.gear[row] ?? NO_GEAR;
  if (gear !== NO_GEAR) reading.gear = gear;
  const shifting = table.shifting[row];
  if (shifting !== 2) reading.shifting = shifting === 1;
  const code = TROUBLE_CODES[table.code[row] ?? 0];
  if (code) reading.codes = [code];
  return reading;
}

function addKnown(reading: Record<string, unknown>, field: string, value: number | undefined): void {
  if (value !== undefined && !Number.isNaN(value)) reading[field] = clean(value);
}

/** Takes off what binary fractions leave behind the third decimal. */
const clean = (value: number | undefined): number => Math.round((value ?? 0) * 1000) / 1000;
