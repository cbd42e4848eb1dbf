import type { LifeRecordRow } from '#db/queries/read-life-records.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';
import type { VehicleRecord } from './vehicle-record.ts';

/** A vehicle as stored, its lives numbered and its mileages on the joined track. */
export function toVehicleRecord(row: LifeRecordRow): VehicleRecord {
  const { vehicle, unit, platform, depot, firstReadingAt, odometerKm, offsetKm, lives } = row;
  return {
    vehicle,
    unit,
    platform,
    depot,
    firstReadingMs: firstReadingAt?.getTime() ?? null,
    firstKm: findFirstKm(row),
    nowKm: odometerKm === null ? null : odometerKm + offsetKm,
    lives: lives.map((life, i) => ({ number: i + 1, ...life })),
  };
}

/**
 * Where the vehicle stood at its first reading: what that showed, within its first stretch. Without its readings, or where
 * the first one was a fault of the odometer, an edge of that stretch.
 */
function findFirstKm({ firstStretch, firstShownKm }: LifeRecordRow): number | null {
  if (firstStretch === null) return firstShownKm;
  const fromKm = firstStretch * STRETCH_KM;
  return Math.min(fromKm + STRETCH_KM, Math.max(fromKm, firstShownKm ?? fromKm));
}
