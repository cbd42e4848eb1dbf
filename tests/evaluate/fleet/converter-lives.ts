import type { Converter } from './clutch.ts';
import type { WearLaw } from './wear-law.ts';

/** One converter in one vehicle; km are true km. */
export interface SimulatedLife {
  converter: Converter;
  law: WearLaw | null;
  fittedKm: number;
  /** Own day of the vehicle on whose morning it was there; 0 for the one that came with it. */
  fromDay: number;
  fittedAs: 'original' | 'new' | 'rebuilt';
  ended: 'failed' | 'preventive' | null;
  /** The fleet told of its fitting. */
  reported: boolean;
}

export function referenceSlip(life: SimulatedLife, km: number): number {
  return life.law === null ? life.converter.healthyRpm : life.law.slipAt(km);
}
