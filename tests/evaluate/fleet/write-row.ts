import type { RandomSource } from './random-source.ts';
import { NO_GEAR, type ReadingTable } from './reading-table.ts';
import type { Usage } from './usage.ts';

interface Moment {
  slipRpm: number;
  dutyPct: number;
  loadPct: number;
  fluidC: number;
  ambientC: number;
  isFirstOfDay: boolean;
}

/**
 * What the sensors make of one moment of driving. About a quarter is no steady lockup: coasting, shifting, no lockup
 * commanded, crawling, or cold in the morning. Answers the row.
 */
export function writeRow(table: ReadingTable, usage: Usage, random: RandomSource, moment: Moment): number {
  let { slipRpm, dutyPct, loadPct, fluidC } = moment;
  let speedKmh = random.between(48, 92);
  let gear = speedKmh < 58 ? 4 : speedKmh < 74 ? 5 : 6;
  let isShifting = false;
  // A clutch that slips more also shudders more.
  let noiseRpm = usage.slipNoiseRpm * (1 + slipRpm / 300);
  const u = random.uniform();
  if (u < 0.07) {
    loadPct = random.between(0, 9);
    slipRpm = -random.between(22, 130);
  } else if (u < 0.11) {
    isShifting = true;
    slipRpm += random.between(40, 450);
    dutyPct = random.between(20, 100);
  } else if (u < 0.18) {
    dutyPct = random.happens(0.7) ? 0 : random.between(0, 12);
    slipRpm = random.between(60, 900);
    speedKmh = random.between(3, 55);
    gear = random.whole(1, 4);
  } else if (u < 0.21) {
    speedKmh = random.between(4, 28);
    gear = random.whole(2, 3);
    slipRpm *= random.between(1, 1.6);
  }
  if (moment.isFirstOfDay && random.happens(0.3 - 0.008 * moment.ambientC)) {
    fluidC = Math.max(moment.ambientC + 5, random.between(15, 53));
    slipRpm = slipRpm * random.between(0.8, 1.5) + random.between(0, 25);
    noiseRpm *= 1.5;
  }
  const row = table.rows++;
  table.slipRpm[row] = bring(slipRpm + noiseRpm * random.heavyTailed(), usage.slipQuantumRpm, -5990, 5990);
  table.dutyPct[row] = bring(dutyPct, usage.dutyQuantumPct, 0, 100);
  const fluid = fluidC + usage.fluidBiasC + 0.6 * random.normal();
  table.fluidC[row] = bring(fluid, usage.isLean ? 5 : 1, -40, 200);
  const load = loadPct + (loadPct > 0 ? usage.loadBiasPct + 1.5 * random.normal() : 0);
  table.loadPct[row] = usage.isLean ? Number.NaN : bring(load, 1, 0, 125);
  table.torquePct[row] = usage.sendsTorque ? bring(0.94 * loadPct + random.normal(), 1, 0, 125) : Number.NaN;
  table.speedKmh[row] = usage.isLean ? Number.NaN : bring(speedKmh, 0.1, 0, 180);
  table.gear[row] = usage.sendsGear ? gear : NO_GEAR;
  table.shifting[row] = usage.isLean ? 2 : isShifting ? 1 : 0;
  return row;
}

/** Rounds to the steps of the instrument and stops at its ends. */
function bring(value: number, quantum: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, Math.round(value / quantum) * quantum));
}
