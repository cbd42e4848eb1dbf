import { useQueries } from '@tanstack/react-query';
import type { RankingRow } from '#server/contract/ranking.ts';
import { vehicleOptions } from '#web/api/use-vehicle.ts';
import { useWordUnits } from '#web/api/use-word-units.ts';

export type Found = ReadonlyMap<string, RankingRow | 'waiting' | 'none'>;

/** A compared vehicle may stand outside of the filter or of the pages loaded so far: then it is asked for. */
export function useCompared(vehicles: readonly string[], rows: readonly RankingRow[]): Found {
  const units = useWordUnits();
  const answers = useQueries({
    queries: vehicles.map((vehicle) => ({
      ...vehicleOptions(vehicle, units),
      enabled: !rows.some((row) => row.vehicle === vehicle),
    })),
  });
  return new Map(
    vehicles.map((vehicle, i) => {
      const row = rows.find((one) => one.vehicle === vehicle) ?? answers[i]?.data?.assessment;
      return [vehicle, row ?? (answers[i]?.isPending ? 'waiting' : 'none')];
    }),
  );
}
