import type { ObservedLife } from '#server/engine/life/life-model.ts';

export interface RecordedLife {
  number: number;
  /** on the joined track of the vehicle, km */
  fittedKm: number;
  fittedAtMs: number | null;
  removedKm: number | null;
  removedAtMs: number | null;
  ended: 'failed' | 'preventive' | 'retired' | null;
  mode: string | null;
  source: string;
  supplier: string | null;
  /** what the converter had run before it was fitted, km; null where nobody has said */
  runKm: number | null;
}

/** What is on record of the converters of one vehicle. */
export interface VehicleRecord {
  vehicle: number;
  unit: string;
  platform: string | null;
  depot: string | null;
  firstReadingMs: number | null;
  /** where it stood at its first and last reading, on the joined track, km */
  firstKm: number | null;
  nowKm: number | null;
  /** in order of mileage, numbered from 1 */
  lives: RecordedLife[];
}

/** A life as far as it was watched; mileages are of the converter, km. */
export interface FleetLife extends ObservedLife {
  vehicle: number;
  unit: string;
  platform: string | null;
  depot: string | null;
  life: number;
  source: string;
  supplier: string | null;
}

export interface LeftOut {
  reason: string;
  lives: number;
}
