/** A signal of SAE J1939-71: `startBit` counts from bit 0 of byte 1; a value is raw * resolution + offset. */
export interface Signal {
  name: string;
  spn: number;
  pgn: number;
  startBit: number;
  bits: 2 | 8 | 16 | 32;
  resolution: number;
  offset: number;
  unit: string;
}

export const groups = {
  electronicEngine2: 61_443,
  electronicEngine1: 61_444,
  electronicTransmission1: 61_442,
  electronicTransmission2: 61_445,
  transmissionFluids: 65_272,
  cruiseControlAndSpeed: 65_265,
  vehicleDistance: 65_248,
  preciseVehicleDistance: 65_217,
  activeCodes: 65_226,
  vehicleIdentification: 65_260,
  transportControl: 60_416,
  transportData: 60_160,
} as const;

export const groupNames: Readonly<Record<number, string>> = {
  [groups.electronicTransmission1]: 'ETC1, transmission shafts and lockup',
  [groups.electronicTransmission2]: 'ETC2, gears',
  [groups.electronicEngine1]: 'EEC1, engine speed and torque',
  [groups.electronicEngine2]: 'EEC2, accelerator and load',
  [groups.transmissionFluids]: 'TRF1, transmission fluid',
  [groups.cruiseControlAndSpeed]: 'CCVS, road speed',
  [groups.vehicleDistance]: 'VD, distance',
  [groups.preciseVehicleDistance]: 'VDHR, distance in high resolution',
  [groups.activeCodes]: 'DM1, active trouble codes',
  [groups.vehicleIdentification]: 'VI, vehicle identification',
  [groups.transportControl]: 'TP.CM, announces messages of several packets',
  [groups.transportData]: 'TP.DT, packets of such messages',
};

type Length = 2 | 8 | 16 | 32;
const row = (
  name: string,
  spn: number,
  pgn: number,
  [startBit, bits]: [number, Length],
  [resolution, offset, unit]: [number, number, string] = [1, 0, ''],
): Signal => ({ name, spn, pgn, startBit, bits, resolution, offset, unit });

const etc1 = groups.electronicTransmission1;
const etc2 = groups.electronicTransmission2;
const eec1 = groups.electronicEngine1;
const eec2 = groups.electronicEngine2;

/** SAE J1939-71 and J1939DA, from transcriptions that agree with each other. */
export const signals = {
  drivelineEngaged: row('driveline engaged', 560, etc1, [0, 2]),
  lockupEngaged: row('lockup engaged', 573, etc1, [2, 2]),
  shiftInProcess: row('shift in process', 574, etc1, [4, 2]),
  outputShaftSpeed: row('output shaft speed', 191, etc1, [8, 16], [0.125, 0, 'rpm']),
  clutchSlip: row('percent clutch slip', 522, etc1, [24, 8], [0.4, 0, '%']),
  inputShaftSpeed: row('input (turbine) shaft speed', 161, etc1, [40, 16], [0.125, 0, 'rpm']),
  selectedGear: row('selected gear', 524, etc2, [0, 8], [1, -125, '']),
  gearRatio: row('gear ratio', 526, etc2, [8, 16], [0.001, 0, '']),
  currentGear: row('current gear', 523, etc2, [24, 8], [1, -125, '']),
  engineTorque: row('actual engine torque', 513, eec1, [16, 8], [1, -125, '%']),
  engineSpeed: row('engine speed', 190, eec1, [24, 16], [0.125, 0, 'rpm']),
  accelerator: row('accelerator position 1', 91, eec2, [8, 8], [0.4, 0, '%']),
  load: row('percent load at speed', 92, eec2, [16, 8], [1, 0, '%']),
  fluidTemperature: row(
    'transmission oil temperature',
    177,
    groups.transmissionFluids,
    [32, 16],
    [0.03125, -273, 'degC'],
  ),
  roadSpeed: row('wheel-based speed', 84, groups.cruiseControlAndSpeed, [8, 16], [1 / 256, 0, 'km/h']),
  distance: row('total vehicle distance', 245, groups.vehicleDistance, [32, 32], [0.125, 0, 'km']),
  preciseDistance: row(
    'high-resolution total distance',
    917,
    groups.preciseVehicleDistance,
    [0, 32],
    [0.005, 0, 'km'],
  ),
} as const satisfies Record<string, Signal>;
export type SignalName = keyof typeof signals;

/** Addresses of SAE J1939 that are the same in every vehicle. */
export const ENGINE_ADDRESS = 0;
export const TRANSMISSION_ADDRESS = 3;
