import type { StretchExposure } from '#db/queries/read-exposure.ts';
import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { type SetAsideReason, setAsideReasons } from '#server/contract/words.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';
import { fluidEdgesC, loadEdgesPct } from '#server/engine/stretches/exposure-bins.ts';
import { heatPerWay } from './heat-per-way.ts';
import { FIRST_HOT_BIN, HOT_FLUID_C } from './hot-fluid.ts';

/** Temperature, load and clutch heat of the usable readings of some stretches. */
export function sumExposure(totals: readonly StretchExposure[]): Omit<VehicleSeries['exposure'], 'platform'> {
  const fluid = addBins(totals.map((total) => total.fluidBins));
  const load = addBins(totals.flatMap((total) => (total.loadBins === null ? [] : [total.loadBins])));
  const heatKw = totals.reduce((sum, total) => sum + (total.heatKwSum ?? 0), 0);
  const speed = totals.reduce((sum, total) => sum + (total.heatSpeedSum ?? 0), 0);
  const perWay = heatPerWay(heatKw, speed);
  const count = (bins: readonly number[]) => bins.reduce((sum, n) => sum + n, 0);
  const all = count(fluid);
  return {
    fluid_c: toShares(fluid, fluidEdgesC),
    load_pct: toShares(load, loadEdgesPct),
    clutch_heat_mj_per_1000km: perWay === null ? null : Math.round(perWay * 10) / 10,
    hot_from_c: HOT_FLUID_C,
    hot_share: all === 0 ? null : count(fluid.slice(FIRST_HOT_BIN)) / all,
  };
}

/** What was set aside, by stretch, month and reason. */
export function listSetAside(totals: readonly StretchExposure[]): VehicleSeries['set_aside'] {
  return totals.flatMap((total) =>
    Object.entries(total.setAside).flatMap(([month, reasons]) =>
      Object.entries(reasons).flatMap(([word, n]) => {
        const reason = toReason(word);
        return reason === null ? [] : [{ odometer_km: (total.stretch + 0.5) * STRETCH_KM, month, reason, n }];
      }),
    ),
  );
}

function toReason(word: string): SetAsideReason | null {
  return setAsideReasons.find((reason) => reason === word) ?? null;
}

function addBins(all: readonly (readonly number[])[]): number[] {
  const sums: number[] = [];
  for (const bins of all)
    bins.forEach((n, i) => {
      sums[i] = (sums[i] ?? 0) + n;
    });
  return sums;
}

/** Null where no reading had a value. */
function toShares(bins: readonly number[], edges: readonly number[]) {
  const total = bins.reduce((a, b) => a + b, 0);
  if (total === 0) return null;
  return Array.from({ length: edges.length + 1 }, (_, i) => ({
    from: edges[i - 1] ?? null,
    to: edges[i] ?? null,
    share: (bins[i] ?? 0) / total,
  }));
}
