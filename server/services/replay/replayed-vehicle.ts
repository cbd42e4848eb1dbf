import type { DayTable } from './day-columns.ts';
import type { VehicleCourses } from './tell-courses.ts';

/** One vehicle run again: its days, and how its lives went with hindsight. */
export interface ReplayedVehicle extends VehicleCourses {
  vehicle: number;
  unit: string;
  platform: string | null;
  depot: string | null;
  days: DayTable;
  /** readings of the period */
  readings: number;
  late: number;
  loaded: number;
}
