import fc from 'fast-check';
import { expect, it } from 'vitest';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { boundDriftRows, MOST_LIMITS } from './bound-drift-rows.ts';
import { estimateDriftSums } from './estimate-drift-sums.ts';
import type { FoundCases } from './found-cases.ts';
import { type DriftGrid, layDriftGrid, UNIT_KM } from './lay-drift-grid.ts';
import { sumWearPoints, type WearSums } from './sum-wear-points.ts';
import { tryDrifts } from './try-drifts.ts';
import { trySteps } from './try-steps.ts';
import { defaultWearPrior as prior, type WearPoint } from './wear-model.ts';

const LIMIT_RPM = 150;
const ENOUGH = Math.log(1e-5);

/** Slip that is flat, or rises by a power of the way, or jumps; at uneven steps, some of them twice at one place. */
function makePoints(seed: number): WearPoint[] {
  const { normal, uniform } = seededRandom(seed);
  const n = 1 + Math.floor(80 * uniform());
  const from = 1e6 * uniform();
  const onset = from + 500 * n * uniform() * 1.3;
  const [rise, power, jump] = [40 * uniform() ** 3, 1 + 3 * uniform(), uniform() < 0.2 ? 60 * uniform() : 0];
  let km = from;
  return Array.from({ length: n }, () => {
    km += uniform() < 0.1 ? 0 : 1_000 * uniform();
    const along = Math.max(0, km - onset) / UNIT_KM;
    const sd = 1 + 6 * uniform();
    return {
      km,
      slipRpm: 15 + rise * along ** power + (along > 0 ? jump : 0) + sd * normal(),
      variance: sd ** 2,
    };
  });
}

function makeCase(seed: number): { sums: WearSums; grid: DriftGrid } {
  const points = makePoints(seed);
  const sums = sumWearPoints(points, prior, 0.7);
  const [first = 0, last = 0] = [points[0]?.km, points.at(-1)?.km];
  const area = {
    onsetKm: [first - 20_000 * (seed % 2), last],
    logSpan: [Math.log(1_200), Math.log(150_000)],
  };
  return { sums, grid: layDriftGrid(area as Parameters<typeof layDriftGrid>[0], 24, 20, prior) };
}

/** Every case of the grid, summed point by point. */
function listAll({ n, kms, slips, w, ...sums }: WearSums, grid: DriftGrid) {
  const cases: { row: number; onsetKm: number; spanKm: number; value: number; log: number; level: number }[] =
    [];
  for (let o = 0; o < grid.onsets; o++)
    grid.ways.forEach(({ growth: { law, value }, logShare, s: scales, spanKm }, way) => {
      const onsetKm = grid.fromKm + (o + 0.5) * grid.cellKm;
      const growthAt = (km: number) => {
        const x = (km - onsetKm) / UNIT_KM;
        if (x <= 0) return 0;
        if (law === 'feedback') return Math.expm1((x * UNIT_KM) / value);
        const cube = x * x * x;
        return value === 3 ? cube : value === 6 ? cube * cube : value === 1 ? x : x ** value;
      };
      let [g1, g2, gy] = [0, 0, 0];
      for (let i = 0; i < n; i++) {
        const g = growthAt(kms[i] ?? 0);
        const wg = (w[i] ?? 0) * g;
        g1 += wg;
        g2 += wg * g;
        gy += wg * (slips[i] ?? 0);
      }
      const gone = Math.max(0, (kms[n - 1] ?? 0) - onsetKm);
      const now = law === 'feedback' ? Math.expm1(gone / value) : (gone / UNIT_KM) ** value;
      scales.forEach((s, k) => {
        if (!(s * now <= MOST_LIMITS)) return;
        const info = sums.info - 2 * s * g1 + s * s * g2 + sums.priorInfo;
        const target = sums.target - s * gy - LIMIT_RPM * (s * g1 - s * s * g2);
        const squares = sums.squares - 2 * s * LIMIT_RPM * gy + s * LIMIT_RPM * (s * LIMIT_RPM) * g2;
        const mean = (target + sums.priorTarget) / info;
        const left = squares + sums.priorSquares - mean * mean * info;
        const log =
          -0.5 * (left + Math.log(info / sums.priorInfo)) +
          grid.logCell +
          logShare +
          (grid.densities[k] ?? 0);
        const level = mean + (LIMIT_RPM - mean) * s * now;
        cases.push({ row: o * grid.ways.length + way, onsetKm, spanKm: spanKm[k] ?? 0, value, log, level });
      });
    });
  return cases;
}

const seeds = { numRuns: 40, endOnFailure: true };
const seed = fc.integer({ min: 1, max: 100_000 });

it('finds what trying every case finds, to the last digit and in the same order', () => {
  fc.assert(
    fc.property(seed, fc.constantFrom(-3_000, -300, -20), (one, best) => {
      const { sums, grid } = makeCase(one);
      const found: FoundCases = { cases: [], best };
      const bounds = boundDriftRows(sums, grid, estimateDriftSums(sums, grid), LIMIT_RPM, best + ENOUGH);
      tryDrifts(sums, grid, bounds, LIMIT_RPM, ENOUGH, found);
      const all = listAll(sums, grid);
      const high = all.reduce((most, { log }) => Math.max(most, log), best as number);
      const counts = ({ log }: { log: number }) => log - high > ENOUGH;
      expect(found.best).toBe(high);
      expect(
        found.cases
          .filter(counts)
          .map((drift) => [drift.onsetKm, drift.growth.value, drift.spanKm, drift.log, drift.levelRpm]),
      ).toEqual(
        all.filter(counts).map((drift) => [drift.onsetKm, drift.value, drift.spanKm, drift.log, drift.level]),
      );
    }),
    seeds,
  );
});

it('bounds every row from above, and the best case from below', () => {
  fc.assert(
    fc.property(seed, (one) => {
      const { sums, grid } = makeCase(one);
      const { most, bestAtLeast } = boundDriftRows(
        sums,
        grid,
        estimateDriftSums(sums, grid),
        LIMIT_RPM,
        -1e9,
      );
      const all = listAll(sums, grid);
      for (const { row, log } of all) expect(log).toBeLessThanOrEqual(most[row] ?? -1);
      expect(bestAtLeast).toBeLessThanOrEqual(all.reduce((high, { log }) => Math.max(high, log), -1e99));
    }),
    seeds,
  );
});

it('runs as the notes of its parts say', () => {
  const sums = sumWearPoints([{ km: 100_100, slipRpm: 15, variance: 4 }], prior, 1);
  expect(sumWearPoints([{ km: 1, slipRpm: 15, variance: 4 }], prior, 1).target).toBe(3.75);
  const grid = layDriftGrid({ onsetKm: [0, 100], logSpan: [9, 10] }, 10, 5, prior);
  expect(grid.cellKm).toBe(10);
  // One point of information 1/4: the sum is a quarter of its growth, 100,095 km in units of 10,000.
  const g1 = estimateDriftSums(sums, grid)[0]?.g1[0] ?? 0;
  expect(g1).toBeCloseTo(10.0095 / 4, 9);
  const found: FoundCases = { cases: [], best: Number.NEGATIVE_INFINITY };
  trySteps(sums, { fromKm: 100_000, cellKm: 500, count: 48 }, 1 / 150_000, -11.5, found);
  // A lone point at the usual slip: the smallest jump is the likeliest but for the larger prior of others.
  expect(new Set(found.cases.map(({ kind }) => kind))).toEqual(new Set(['step']));
  expect(found.best).toBe(Math.max(...found.cases.map(({ log }) => log)));
});
