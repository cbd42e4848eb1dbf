import type { RandomSource } from './random-source.ts';
import type { ReadingTable } from './reading-table.ts';

/** A glitch: one signal of the reading is anything at all, and nothing says so. */
export function disturb(table: ReadingTable, row: number, random: RandomSource): void {
  const u = random.uniform();
  if (u < 0.85) table.slipRpm[row] = drawWildSlip(random);
  else if (u < 0.92) table.fluidC[row] = random.pick([-40, 0, 210, Math.round(random.between(-40, 210))]);
  else if (u < 0.96) table.dutyPct[row] = random.pick([0, 100, Math.round(random.between(0, 100))]);
  else if (u < 0.99) {
    if (!Number.isNaN(table.loadPct[row] ?? 0)) table.loadPct[row] = random.pick([0, 125, 60]);
  } else table.odometerKm[row] = random.pick([0, 4_294_967, Math.round(random.between(0, 900_000))]);
}

function drawWildSlip(random: RandomSource): number {
  const u = random.uniform();
  if (u < 0.3) return 0;
  if (u < 0.45) return random.pick([6000, 5999, 4095, 2047]);
  if (u < 0.6) return Math.round(random.between(-3000, 0));
  if (u < 0.8) return Math.round(random.between(100, 700));
  return Math.round(random.between(300, 5500));
}
