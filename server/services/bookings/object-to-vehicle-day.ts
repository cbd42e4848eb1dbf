import type { HeldVehicle } from '#db/queries/lock-booking.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import { objectToAbsence, type PlannedDepot } from './object-to-day.ts';
import type { Objection } from './objection.ts';

export const objectToVehicleDay = (
  { vehicle }: HeldVehicle,
  { timeZone }: PlannedDepot,
  day: string,
  now: Date,
): Objection | null => objectToAbsence(vehicle.unit, vehicle.unavailable, day, localOf(timeZone, now).day);
