/** Readings of a fleet, a moment every four hours, with the eleven fields that a gateway knows. */
export interface MadeRows {
  /** unit numbers begin with it: another prefix, another fleet */
  prefix: string;
  rows: number;
  vehicles: number;
}

export interface MadeRow {
  vehicle: string;
  at: string;
  odometer_km: number;
  slip_rpm: number;
  duty_pct: number;
  fluid_c: number;
  load_pct: number;
  torque_pct: number;
  speed_kmh: number;
  gear: number;
  seconds: number;
}

const START_MS = Date.UTC(2026, 0, 5);
const TURN_MS = 4 * 3_600_000;
export const FIRST_UNIT = 1000;

/** The row of a vehicle, from 0, at its turn, from 0. */
export function makeRow(prefix: string, vehicle: number, turn: number): MadeRow {
  const i = turn * 1009 + vehicle;
  return {
    vehicle: `${prefix}-${FIRST_UNIT + vehicle}`,
    at: new Date(START_MS + turn * TURN_MS + (vehicle % 1000) * 1000).toISOString(),
    odometer_km: 100_000 + turn * 35.5,
    slip_rpm: 10 + ((i * 7919) % 97) / 10,
    duty_pct: 60 + ((i * 31) % 40),
    fluid_c: 70 + ((i * 17) % 30),
    load_pct: 20 + ((i * 13) % 60),
    torque_pct: 15 + ((i * 11) % 60),
    speed_kmh: 40 + ((i * 5) % 50),
    gear: 4 + (i % 3),
    seconds: 10,
  };
}

/** By time, all vehicles in each turn, as they arrive; `from` and `to` choose vehicles. */
export function* listByTime({ prefix, rows, vehicles }: MadeRows, from = 0, to = vehicles) {
  for (let turn = 0; turn < Math.ceil(rows / vehicles); turn++)
    for (let vehicle = from; vehicle < to; vehicle++) yield makeRow(prefix, vehicle, turn);
}

/** By vehicle and time, as they are stored. */
export function* listByVehicle({ prefix, rows, vehicles }: MadeRows, from = 0, to = vehicles) {
  for (let vehicle = from; vehicle < to; vehicle++)
    for (let turn = 0; turn < Math.ceil(rows / vehicles); turn++)
      yield { vehicle, row: makeRow(prefix, vehicle, turn) };
}
