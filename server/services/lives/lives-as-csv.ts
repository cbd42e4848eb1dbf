import { exposures, type FleetLivesQuery } from '#server/contract/lives.ts';
import type { Context } from '#server/services/context.ts';
import { writeCsv } from '#server/services/csv/write-csv.ts';
import { chooseLives } from './choose-lives.ts';
import { measureExposures } from './measure-exposures.ts';

const columns = [
  'vehicle',
  'platform',
  'depot',
  'life',
  'source',
  'supplier',
  'fitted_km',
  'entry_km',
  'exit_km',
  'event',
  'ended',
  'mode',
  ...exposures,
];

/** The lives that a query asks for, a row each; entry and exit are mileages of the converter. */
export async function livesAsCsv(ctx: Context, query: FleetLivesQuery): Promise<string> {
  const { lives, watched, records, period } = await chooseLives(ctx, query);
  const used = await measureExposures(ctx, lives, records, period);
  const recorded = new Map(
    watched.flatMap(({ vehicle, lives: own }) => own.map((life) => [`${vehicle} ${life.number}`, life])),
  );
  const rows = lives.map((life, i) => {
    const record = recorded.get(`${life.vehicle} ${life.life}`);
    return [
      life.unit,
      life.platform,
      life.depot,
      life.life,
      life.source,
      life.supplier,
      round(record?.fittedKm ?? null, 1),
      round(life.entry, 1),
      round(life.exit, 1),
      life.event,
      record?.ended ?? null,
      record?.mode ?? null,
      ...exposures.map((name) => round(used[i]?.[name] ?? null, 4)),
    ];
  });
  return writeCsv(columns, rows);
}

const round = (value: number | null, digits: number): number | null =>
  value === null ? null : Number(value.toFixed(digits));
