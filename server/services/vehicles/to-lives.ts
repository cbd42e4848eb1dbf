import type { PlacedVehicle } from '#db/queries/read-vehicle-record.ts';
import type { Life } from '#server/contract/vehicle.ts';

/** Lives as the interface shows them; a vehicle without a registered one has one that nobody reported. */
export function toLives(record: Pick<PlacedVehicle, 'lives'>): Life[] {
  if (record.lives.length === 0)
    return [
      {
        life: 1,
        fitted_km: 0,
        fitted_at: null,
        source: null,
        removed_km: null,
        removed_at: null,
        ended: null,
        mode: null,
        supplier: null,
        run_km: null,
      },
    ];
  return record.lives.map((life, i) => ({
    life: i + 1,
    fitted_km: life.fittedKm,
    fitted_at: life.fittedAt?.toISOString() ?? null,
    source: life.source,
    removed_km: life.removedKm,
    removed_at: life.removedAt?.toISOString() ?? null,
    ended: life.ended,
    mode: life.mode,
    supplier: life.supplier,
    run_km: life.runKm,
  }));
}
