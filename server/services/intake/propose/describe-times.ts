import type { Mapping } from '#server/contract/mappings.ts';
import { createTimeTextReader, type TimeText } from '#server/services/intake/mapped/read-time-text.ts';

type Order = Mapping['time']['order'];

export interface DescribedTimes {
  /** what its cells hold */
  holds: 'moment' | 'date' | 'clock';
  form: Mapping['time']['form'];
  order: Order;
  /** another order of day and month would do as well */
  otherOrder: Order | null;
  /** all of them say their zone */
  zoned: boolean;
}

const LEAST_SHARE = 0.8;
const NUMBER = /^\d+(?:[.,]\d+)?$/;
const DAY_S = 86_400;
const YEAR_2000_S = 946_684_800;
const YEAR_2100_S = 4_102_444_800;
/** Sheet days of 1990 and 2100. */
const SHEET = { from: 32_874, to: 73_051 };

/** What kind of times cells hold; null where most are none. */
export function describeTimes(cells: readonly string[]): DescribedTimes | null {
  if (cells.length === 0) return null;
  const read = (['ymd', 'dmy', 'mdy'] as const).map((order) => {
    const reader = createTimeTextReader(order);
    const times = cells.map(reader).filter((time): time is TimeText => time !== null);
    return { order, times };
  });
  const best = read.toSorted((a, b) => b.times.length - a.times.length)[0];
  if (best === undefined || best.times.length < LEAST_SHARE * cells.length) return describeNumbers(cells);
  const { times } = best;
  const dates = times.filter(({ dayMs }) => dayMs !== null).length;
  const clocks = times.filter(({ clockMs }) => clockMs !== null).length;
  const most = LEAST_SHARE * times.length;
  const holds = dates < most ? 'clock' : clocks < most ? 'date' : 'moment';
  const asGood = read.filter((one) => one.times.length === times.length).map((one) => one.order);
  const order = chooseOrder(asGood, cells);
  const isUnsure = asGood.length === 2 && dates > 0;
  return {
    holds,
    form: 'text',
    order,
    otherOrder: isUnsure ? (asGood.find((one) => one !== order) ?? null) : null,
    zoned: times.every(({ offsetMs }) => offsetMs !== null),
  };
}

/** Points are written where the day comes first; AM and PM mostly where the month does. */
function chooseOrder(orders: readonly Order[], cells: readonly string[]): Order {
  if (orders.includes('ymd') || orders.length === 1) return orders[0] ?? 'ymd';
  return cells.some((cell) => /\d ?[ap]\.?m\.?$/i.test(cell)) ? 'mdy' : 'dmy';
}

function describeNumbers(cells: readonly string[]): DescribedTimes | null {
  const values = cells
    .filter((cell) => NUMBER.test(cell))
    .map((cell) => Number(cell.replace(',', '.')))
    .toSorted((a, b) => a - b);
  if (values.length < LEAST_SHARE * cells.length) return null;
  const median = values[Math.floor(values.length / 2)] ?? 0;
  const form =
    median >= YEAR_2000_S * 1000 && median <= YEAR_2100_S * 1000
      ? 'unix_ms'
      : median >= YEAR_2000_S && median <= YEAR_2100_S
        ? 'unix_s'
        : median >= SHEET.from && median <= SHEET.to && values.some((value) => value % 1 !== 0)
          ? 'sheet_days'
          : median <= 400 * DAY_S
            ? 'seconds'
            : null;
  if (form === null) return null;
  return { holds: 'moment', form, order: 'ymd', otherOrder: null, zoned: false };
}
