import type { AtlasCell, AtlasStretch } from '#db/queries/read-atlas.ts';
import type { AtlasStanding } from '#server/contract/atlas.ts';
import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import { COMMAND_STEP_PCT, FINE_SLIP_RPM } from './atlas-steps.ts';

/** So many newest stretches say where a vehicle is now. */
const NEWEST = 3;

interface Parts {
  vehicle: string;
  /** of the vehicle, oldest first */
  stretches: readonly AtlasStretch[];
  /** of all vehicles, this one among them */
  cells: readonly AtlasCell[];
  bandEdgesPct: readonly number[];
}

/** Where a vehicle lies among all others, in the band that holds most of its readings; null with nothing to compare. */
export function findStanding({ vehicle, stretches, cells, bandEdgesPct }: Parts): AtlasStanding | null {
  const own = stretches.filter(({ band }) => band >= 0);
  const band = findFullest(own);
  const [from, to] = [bandEdgesPct[band ?? -1], bandEdgesPct[(band ?? -1) + 1]];
  if (band === null || from === undefined || to === undefined) return null;
  const ownInBand = own.filter((one) => one.band === band);
  const others = takeOut(
    cells.filter((cell) => cell.band === band),
    ownInBand,
  );
  const readings = others.reduce((sum, cell) => sum + cell.n, 0);
  if (readings === 0) return null;
  const newest = ownInBand.slice(-NEWEST);
  const slipRpm = meanSlip(newest);
  const below = others.reduce((sum, cell) => sum + (cell.slipRpm < slipRpm ? cell.n : 0), 0);
  const [middle = 0] = weightedQuantiles(
    others.map((cell) => cell.slipRpm),
    others.map((cell) => cell.n),
    [0.5],
  );
  return {
    vehicle,
    from_pct: from,
    to_pct: to,
    slip_rpm: tenth(slipRpm),
    stretches: newest.length,
    middle_rpm: tenth(middle),
    others: readings,
    share_below: below / readings,
  };
}

/** The cells without the readings of one vehicle. */
function takeOut(cells: readonly AtlasCell[], own: readonly AtlasStretch[]): AtlasCell[] {
  const key = (step: number, fine: number) => `${step} ${fine}`;
  const taken = new Map<string, AtlasStretch[]>();
  for (const one of own) {
    const at = key(Math.floor(one.dutyPct / COMMAND_STEP_PCT), Math.floor(one.slipRpm / FINE_SLIP_RPM));
    taken.set(at, [...(taken.get(at) ?? []), one]);
  }
  return cells.flatMap((cell) => {
    const mine = taken.get(key(cell.step, cell.fine)) ?? [];
    const n = cell.n - mine.reduce((sum, one) => sum + one.n, 0);
    if (n <= 0) return [];
    const slipRpm = (cell.n * cell.slipRpm - mine.reduce((sum, one) => sum + one.n * one.slipRpm, 0)) / n;
    return [{ ...cell, n, slipRpm }];
  });
}

function findFullest(stretches: readonly AtlasStretch[]): number | null {
  const readings = new Map<number, number>();
  for (const { band, n } of stretches) readings.set(band, (readings.get(band) ?? 0) + n);
  const [fullest] = [...readings].toSorted(([a, m], [b, n]) => n - m || b - a);
  return fullest?.[0] ?? null;
}

function meanSlip(stretches: readonly AtlasStretch[]): number {
  const n = stretches.reduce((sum, one) => sum + one.n, 0);
  return stretches.reduce((sum, one) => sum + one.n * one.slipRpm, 0) / n;
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
