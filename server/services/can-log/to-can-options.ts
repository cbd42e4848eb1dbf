import type { Database } from '#db/client.ts';
import { findUnitsByVin } from '#db/queries/find-units-by-vin.ts';
import type { Given } from '#server/contract/mappings.ts';
import { type CanOptions, USUAL_WINDOW_S } from './read-can-log.ts';

/** How a CAN log is read, by what whoever brings it says of it. */
export function toCanOptions(db: Database, given: Given): CanOptions {
  return {
    vehicle: given.vehicle ?? null,
    startMs: given.start === undefined ? null : Date.parse(given.start),
    windowS: given.window_s ?? USUAL_WINDOW_S,
    findUnits: (vin) => findUnitsByVin(db, vin),
  };
}
