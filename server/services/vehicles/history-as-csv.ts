import type { Context } from '#server/services/context.ts';
import { writeCsv } from '#server/services/csv/write-csv.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { getHistory } from './get-history.ts';

/** Everything that happened to one vehicle as CSV, newest first. */
export async function historyAsCsv(ctx: Context, unit: string, units: Units): Promise<string> {
  const { vehicle, events } = await getHistory(ctx, unit, units);
  return writeCsv(
    ['vehicle', 'at', 'odometer_km', 'kind', 'text'],
    events.map(({ at, odometer_km: km, kind, text }) => [vehicle, at, km, kind, text]),
  );
}
