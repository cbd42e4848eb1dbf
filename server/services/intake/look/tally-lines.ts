import type { Look } from '#server/contract/looks.ts';
import type { Reading } from '#server/contract/readings.ts';
import { checkReading } from '#server/services/intake/check-reading.ts';
import { type Line, type LineError, RAW_KEPT_CHARACTERS } from '#server/services/intake/line.ts';
import { toPlainText } from '#server/services/intake/to-plain-text.ts';
import { toSeenReading } from './to-seen-reading.ts';

const ROWS_SHOWN = 20;
const FAULTS_SHOWN = 100;
const MOST_FAULTS = 1000;
const MOST_VEHICLES = 100_000;

type Fault = Look['faults'][number];

/** Counts what lines would come to, as storing them would; holds no more than is shown. */
export function createTally(nowMs: number) {
  const rows: Look['rows'] = [];
  const faults = new Map<string, Fault>();
  const vehicles = new Map<string, number>();
  let good = 0;
  let bad = 0;
  let firstMs = Number.POSITIVE_INFINITY;
  let lastMs = Number.NEGATIVE_INFINITY;

  const takeGood = (reading: Reading): void => {
    good += 1;
    const atMs = reading.at.getTime();
    if (atMs < firstMs) firstMs = atMs;
    if (atMs > lastMs) lastMs = atMs;
    const known = vehicles.get(reading.vehicle);
    if (known !== undefined || vehicles.size < MOST_VEHICLES) vehicles.set(reading.vehicle, (known ?? 0) + 1);
  };
  const takeBad = ({ line, raw }: Line, [first]: readonly LineError[]): void => {
    bad += 1;
    if (first === undefined) return;
    const key = `${first.field} ${first.message}`;
    const known = faults.get(key);
    if (known !== undefined) known.lines += 1;
    else if (faults.size < MOST_FAULTS)
      faults.set(key, { ...toPlain(first), lines: 1, line, raw: cutRaw(raw) });
  };

  return {
    add(line: Line): void {
      const checked =
        line.errors === null ? checkReading(line.value, nowMs) : { reading: null, errors: line.errors };
      if (checked.reading === null) takeBad(line, checked.errors ?? []);
      else takeGood(checked.reading);
      if (rows.length >= ROWS_SHOWN) return;
      const { reading, errors } = checked;
      rows.push({
        line: line.line,
        raw: cutRaw(line.raw),
        reading: reading === null ? null : toSeenReading(reading),
        errors: (errors ?? []).map(toPlain),
      });
    },
    vehicles: () => [...vehicles].toSorted((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)),
    counted: () => ({
      lines: good + bad,
      good,
      bad,
      first_at: good === 0 ? null : new Date(firstMs).toISOString(),
      last_at: good === 0 ? null : new Date(lastMs).toISOString(),
      vehicles_total: vehicles.size,
      rows,
      faults: [...faults.values()].toSorted((a, b) => b.lines - a.lines).slice(0, FAULTS_SHOWN),
    }),
  };
}

const toPlain = ({ field, message }: LineError): LineError => ({
  field: toPlainText(field),
  message: toPlainText(message),
});
const cutRaw = (raw: string): string => raw.slice(0, RAW_KEPT_CHARACTERS);
