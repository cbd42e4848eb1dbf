import { type Database, rawClient } from '#db/client.ts';
import type { RebuildWindow } from './find-rebuild-windows.ts';
import { readBinaryCopy } from './read-binary-copy.ts';

/** A reading as the gates and stretches want it. */
export interface StoredReading {
  vehicle: number;
  /** ms since 1970 */
  atMs: number;
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  torquePct: number | null;
  speedKmh: number | null;
  shifting: boolean | null;
  codes: string[] | null;
}

/** Least time that is looked at on either side of a span for more readings. */
const LEAST_MARGIN_MS = 86_400_000;
/** Where too few lay there, so many times as far. */
const FARTHER = 8;

interface Search extends RebuildWindow {
  marginMs: number;
}

/**
 * Readings of vehicles within their spans of time, with so many more on either side, by vehicle in order of time. How far these lie is
 * not known: a time is tried in which as dense readings would have enough, and a longer one for vehicles that had not.
 */
export async function readReadings(
  db: Database,
  windows: readonly RebuildWindow[],
  guard: number,
): Promise<Map<number, StoredReading[]>> {
  const found = new Map<number, StoredReading[]>(windows.map(({ vehicle }) => [vehicle, []]));
  const spans = await readSpans(db, windows);
  let left = windows.flatMap((window): Search[] => {
    const span = spans.get(window.vehicle);
    return span === undefined ? [] : [{ ...window, marginMs: firstMargin(window, span, guard) }];
  });
  while (left.length > 0) {
    const rows = await readWithin(db, left);
    left = left.filter((search) => {
      const own = rows.get(search.vehicle) ?? [];
      const from = own.findIndex(({ atMs }) => atMs >= search.fromAt.getTime());
      const before = from < 0 ? own.length : from;
      const after = own.length - 1 - own.findLastIndex(({ atMs }) => atMs <= search.toAt.getTime());
      found.set(
        search.vehicle,
        own.slice(Math.max(0, before - guard), own.length - Math.max(0, after - guard)),
      );
      const span = spans.get(search.vehicle);
      if (span === undefined) return false;
      const isShort =
        (before < guard && search.fromAt.getTime() - search.marginMs > span.firstAtMs) ||
        (after < guard && search.toAt.getTime() + search.marginMs < span.lastAtMs);
      search.marginMs *= FARTHER;
      return isShort;
    });
  }
  return found;
}

/** Twice the time in which there would be enough if they lay as densely as those of the span. */
function firstMargin({ fromAt, toAt }: RebuildWindow, span: ReadingSpan, guard: number): number {
  const fromMs = Math.max(fromAt.getTime(), span.firstAtMs);
  const toMs = Math.min(toAt.getTime(), span.lastAtMs);
  return Math.max(LEAST_MARGIN_MS, (2 * guard * (toMs - fromMs)) / Math.max(1, span.n));
}

async function readWithin(db: Database, searches: readonly Search[]): Promise<Map<number, StoredReading[]>> {
  const rows = await readBinaryCopy(
    rawClient(db),
    `select r.vehicle, r.at, r.odometer_km, r.slip_rpm, r.duty_pct, r.fluid_c, r.load_pct, r.torque_pct, r.speed_kmh,
      r.shifting, r.codes
    from unnest('{${searches.map(({ vehicle }) => vehicle)}}'::integer[],
      '{${searches.map(({ fromAt, marginMs }) => moment(fromAt.getTime() - marginMs))}}'::timestamptz[],
      '{${searches.map(({ toAt, marginMs }) => moment(toAt.getTime() + marginMs))}}'::timestamptz[])
      as j(vehicle, from_at, to_at)
    join readings r on r.vehicle = j.vehicle and r.at between j.from_at and j.to_at`,
    (row): StoredReading => ({
      vehicle: row.integer(),
      atMs: row.instantMs(),
      odometerKm: row.real(),
      slipRpm: row.real(),
      dutyPct: row.real(),
      fluidC: row.realOrNull(),
      loadPct: row.realOrNull(),
      torquePct: row.realOrNull(),
      speedKmh: row.realOrNull(),
      shifting: row.boolean(),
      codes: row.texts(),
    }),
  );
  const groups = new Map<number, StoredReading[]>();
  for (const row of rows) {
    const own = groups.get(row.vehicle);
    if (own === undefined) groups.set(row.vehicle, [row]);
    else own.push(row);
  }
  // By index they come in order already, and that costs next to nothing.
  for (const own of groups.values()) own.sort((a, b) => a.atMs - b.atMs);
  return groups;
}

const FIRST_MS = Date.UTC(1900, 0, 1);
const LAST_MS = Date.UTC(9999, 11, 31);
const moment = (ms: number): string => new Date(Math.min(LAST_MS, Math.max(FIRST_MS, ms))).toISOString();

interface ReadingSpan {
  firstAtMs: number;
  lastAtMs: number;
  /** readings within the given span of time */
  n: number;
}

/** How many readings of each vehicle lie within its span of time, and between which moments it has any at all. */
export async function readSpans(
  db: Database,
  windows: readonly RebuildWindow[],
): Promise<Map<number, ReadingSpan>> {
  const rows = await rawClient(db)<(ReadingSpan & { vehicle: number })[]>`
    select s.vehicle, (extract(epoch from s.first_at) * 1000)::float8 as "firstAtMs",
      (extract(epoch from s.last_at) * 1000)::float8 as "lastAtMs", count(r.at)::integer as n
    from jsonb_to_recordset(${JSON.stringify(windows)}::text::jsonb)
      as j(vehicle integer, "fromAt" timestamptz, "toAt" timestamptz)
    join reading_spans s on s.vehicle = j.vehicle
    left join readings r on r.vehicle = s.vehicle and r.vehicle = j.vehicle and r.at between j."fromAt" and j."toAt"
    group by s.vehicle`;
  return new Map(rows.map(({ vehicle, ...span }) => [vehicle, span]));
}
