/**
 * Text of SQL that joins the tracks of a vehicle's instruments, for either client (`sql.raw`, `unsafe`). What it is given are
 * names in the statement around it, of our own: never anything that came from outside.
 */

/** Kilometres to be added to what the instrument of a vehicle shows now, or showed at a moment. */
export const offsetKm = (vehicle: string, at?: string): string => `coalesce((
  select s.offset_km from odometer_steps s where s.vehicle = ${vehicle}${at === undefined ? '' : ` and s.at <= ${at}`}
  order by s.at desc limit 1), 0)`;

/** Where on the joined track the job of a packet was done. */
export const jobKm = (packet: string): string =>
  `${packet}.odometer_km + ${offsetKm(`${packet}.vehicle`, `${packet}.work_at`)}`;
