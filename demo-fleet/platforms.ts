/** Three invented vehicle and transmission types. Figures are plausible for their size, from memory, no source. */
export interface ClutchBuild {
  faces: number;
  frictionCoefficient: number;
  meanRadiusM: number;
  pistonAreaM2: number;
  fullPressureKpa: number;
  /** pressure that only brings the piston against its return spring */
  returnPressureKpa: number;
  /** slip over which friction builds up through the fluid film of a fresh lining */
  filmSlipRpm: number;
  /** slip from engine pulsation and the controller's own target at full command, and more at none */
  microSlipRpm: number;
  microSlipLowCommandRpm: number;
  /** torque that the converter's fluid carries beside the clutch, per rpm of slip at 1500 rpm */
  converterNmPerRpm: number;
}

export interface PlatformBuild {
  id: string;
  name: string;
  unitPrefix: string;
  share: number;
  engine: { peakTorqueNm: number; flatFromRpm: number; flatToRpm: number; maxRpm: number };
  driveline: {
    gearRatios: readonly number[];
    finalDrive: number;
    tyreRadiusM: number;
    efficiency: number;
    firstLockupGear: number;
  };
  body: { emptyKg: number; payloadKg: number; dragAreaM2: number; rolling: number };
  clutch: ClutchBuild;
  fluid: { baseC: number; coolerKwPerK: number; warmUpMinutes: number };
  work: { kmPerDay: number; startHour: number; endHour: number; workday: readonly number[] };
  reference: { dutyPct: number; loadPct: number; fluidC: number; turbineRpm: number };
  limitRpm: number;
  lifeKm: number;
  odometerKm: readonly [number, number];
  solenoid: { ohm: number; supplyV: number; wiringOhm: number; tolerancePct: number };
  /** in the operator's own currency */
  converter: { price: number; core_deposit: number; spare_cores: number };
  inspectionHours: number;
  costs: { road_failure: number; planned_repair: number; inspection: number; lost_day: number };
}

export const platforms: readonly PlatformBuild[] = [
  {
    id: 'morvelt',
    name: 'Morvelt bus, Morvelt six-gear automatic',
    unitPrefix: 'B-1',
    share: 0.5,
    engine: { peakTorqueNm: 1100, flatFromRpm: 1050, flatToRpm: 1750, maxRpm: 2300 },
    driveline: {
      gearRatios: [3.5, 2.0, 1.45, 1.0, 0.76, 0.64],
      finalDrive: 5.2,
      tyreRadiusM: 0.48,
      efficiency: 0.92,
      firstLockupGear: 2,
    },
    body: { emptyKg: 11_500, payloadKg: 4800, dragAreaM2: 5.2, rolling: 0.0085 },
    clutch: {
      faces: 2,
      frictionCoefficient: 0.13,
      meanRadiusM: 0.14,
      pistonAreaM2: 0.052,
      fullPressureKpa: 1085,
      returnPressureKpa: 148,
      filmSlipRpm: 6.5,
      microSlipRpm: 4,
      microSlipLowCommandRpm: 42,
      converterNmPerRpm: 1.75,
    },
    fluid: { baseC: 67, coolerKwPerK: 0.5, warmUpMinutes: 16 },
    work: { kmPerDay: 215, startHour: 5, endHour: 22.5, workday: [0.75, 0.97, 0.97, 0.97, 0.97, 0.97, 0.88] },
    reference: { dutyPct: 85, loadPct: 50, fluidC: 85, turbineRpm: 1500 },
    limitRpm: 150,
    lifeKm: 340_000,
    odometerKm: [70_000, 520_000],
    solenoid: { ohm: 5.5, supplyV: 24, wiringOhm: 0.5, tolerancePct: 20 },
    converter: { price: 2380, core_deposit: 650, spare_cores: 0 },
    inspectionHours: 3,
    costs: { road_failure: 9800, planned_repair: 3400, inspection: 140, lost_day: 90 },
  },
  {
    id: 'korvandel',
    name: 'Korvandel utility truck, Korvandel heavy automatic',
    unitPrefix: 'T-2',
    share: 0.29,
    engine: { peakTorqueNm: 900, flatFromRpm: 1100, flatToRpm: 1800, maxRpm: 2500 },
    driveline: {
      gearRatios: [3.3, 1.9, 1.4, 1.0, 0.73],
      finalDrive: 5.6,
      tyreRadiusM: 0.48,
      efficiency: 0.91,
      firstLockupGear: 2,
    },
    body: { emptyKg: 8600, payloadKg: 4500, dragAreaM2: 5.6, rolling: 0.009 },
    clutch: {
      faces: 2,
      frictionCoefficient: 0.128,
      meanRadiusM: 0.13,
      pistonAreaM2: 0.046,
      fullPressureKpa: 1110,
      returnPressureKpa: 150,
      filmSlipRpm: 7,
      microSlipRpm: 5,
      microSlipLowCommandRpm: 46,
      converterNmPerRpm: 1.4,
    },
    fluid: { baseC: 69, coolerKwPerK: 0.4, warmUpMinutes: 18 },
    work: {
      kmPerDay: 125,
      startHour: 6.5,
      endHour: 16.5,
      workday: [0.05, 0.94, 0.94, 0.94, 0.94, 0.92, 0.3],
    },
    reference: { dutyPct: 85, loadPct: 55, fluidC: 90, turbineRpm: 1600 },
    limitRpm: 170,
    lifeKm: 230_000,
    odometerKm: [15_000, 230_000],
    solenoid: { ohm: 4.8, supplyV: 24, wiringOhm: 0.7, tolerancePct: 25 },
    converter: { price: 1640, core_deposit: 2150, spare_cores: 0 },
    inspectionHours: 4,
    costs: { road_failure: 8600, planned_repair: 3100, inspection: 150, lost_day: 60 },
  },
  {
    id: 'ulvarrock',
    name: 'Ulvarrock van, Ulvarrock light automatic',
    unitPrefix: 'V-3',
    share: 0.21,
    engine: { peakTorqueNm: 430, flatFromRpm: 1400, flatToRpm: 2600, maxRpm: 3800 },
    driveline: {
      gearRatios: [3.6, 2.2, 1.5, 1.12, 0.86, 0.68],
      finalDrive: 4.3,
      tyreRadiusM: 0.345,
      efficiency: 0.92,
      firstLockupGear: 2,
    },
    body: { emptyKg: 2500, payloadKg: 1300, dragAreaM2: 2.6, rolling: 0.01 },
    clutch: {
      faces: 1,
      frictionCoefficient: 0.135,
      meanRadiusM: 0.115,
      pistonAreaM2: 0.05,
      fullPressureKpa: 1010,
      returnPressureKpa: 130,
      filmSlipRpm: 6,
      microSlipRpm: 4,
      microSlipLowCommandRpm: 38,
      converterNmPerRpm: 0.72,
    },
    fluid: { baseC: 66, coolerKwPerK: 0.22, warmUpMinutes: 13 },
    work: { kmPerDay: 165, startHour: 7, endHour: 18, workday: [0.1, 0.95, 0.95, 0.95, 0.95, 0.93, 0.55] },
    reference: { dutyPct: 80, loadPct: 45, fluidC: 85, turbineRpm: 2000 },
    limitRpm: 130,
    lifeKm: 260_000,
    odometerKm: [20_000, 250_000],
    solenoid: { ohm: 11, supplyV: 12, wiringOhm: 0.6, tolerancePct: 25 },
    converter: { price: 890, core_deposit: 320, spare_cores: 1 },
    inspectionHours: 2.5,
    costs: { road_failure: 5200, planned_repair: 2300, inspection: 95, lost_day: 40 },
  },
];
