export const SENDERS = 4;
const VEHICLES_A_SENDER = 100;
const READINGS_A_DELIVERY = 5;
export const LINES = VEHICLES_A_SENDER * READINGS_A_DELIVERY;
const SPACING_MS = 30_000;
const KM_A_READING = 0.5;

export const unitOf = (sender: number, vehicle: number): string => `S${sender}-${100 + vehicle}`;

export const listUnits = (): string[] =>
  Array.from({ length: SENDERS }, (_, sender) =>
    Array.from({ length: VEHICLES_A_SENDER }, (_, vehicle) => unitOf(sender, vehicle)),
  ).flat();

/** Readings that a vehicle has sent after so many deliveries of its sender, and the times of the first and the last. */
export function expectOf(vehicle: number, deliveries: number, startMs: number) {
  const readings = deliveries * READINGS_A_DELIVERY;
  return { readings, firstMs: timeOf(startMs, vehicle, 0), lastMs: timeOf(startMs, vehicle, readings - 1) };
}

const timeOf = (startMs: number, vehicle: number, reading: number): number =>
  startMs + reading * SPACING_MS + vehicle * 10;

/**
 * One delivery of a gateway: five readings, half a minute apart, of each of its hundred vehicles. Every tenth vehicle
 * slips more and more, so that the assessment has something to find.
 */
export function writeDelivery(sender: number, turn: number, startMs: number): string {
  const lines: string[] = [];
  for (let vehicle = 0; vehicle < VEHICLES_A_SENDER; vehicle += 1)
    for (let k = 0; k < READINGS_A_DELIVERY; k += 1) {
      const reading = turn * READINGS_A_DELIVERY + k;
      const scatter = ((reading * 7919 + vehicle * 104_729 + sender * 13) % 97) / 97;
      const drift = vehicle % 10 === 0 ? reading * KM_A_READING * 0.004 : 0;
      lines.push(
        JSON.stringify({
          vehicle: unitOf(sender, vehicle),
          at: new Date(timeOf(startMs, vehicle, reading)).toISOString(),
          odometer_km: 40_000 + 1000 * vehicle + reading * KM_A_READING,
          slip_rpm: 12 + (vehicle % 7) + 6 * scatter + drift,
          duty_pct: 78 + (turn % 15),
          fluid_c: 80 + 10 * scatter,
          load_pct: 35 + 30 * scatter,
          speed_kmh: 60,
          gear: 6,
          seconds: 30,
        }),
      );
    }
  return lines.join('\n');
}
