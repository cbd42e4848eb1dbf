import type { SeenReading } from '#server/contract/looks.ts';
import type { Reading } from '#server/contract/readings.ts';

export const toSeenReading = (reading: Reading): SeenReading => ({
  vehicle: reading.vehicle,
  at: reading.at.toISOString(),
  odometer_km: reading.odometerKm,
  slip_rpm: reading.slipRpm,
  duty_pct: reading.dutyPct,
  fluid_c: reading.fluidC,
  load_pct: reading.loadPct,
  torque_pct: reading.torquePct,
  throttle_pct: reading.throttlePct,
  speed_kmh: reading.speedKmh,
  gear: reading.gear,
  shifting: reading.shifting,
  seconds: reading.seconds,
  codes: reading.codes,
});
