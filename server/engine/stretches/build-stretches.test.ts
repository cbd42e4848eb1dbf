import { describe, expect, it } from 'vitest';
import { gateRules } from '#tests/helpers/engine-settings.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { buildStretches, type StretchReading, type StretchRules } from './build-stretches.ts';

const HOUR_MS = 3_600_000;
const START_MS = Date.UTC(2025, 0, 30);

const rules: StretchRules = {
  gate: gateRules,
  bandEdgesPct: [40, 55, 70, 85, 100],
  reference: { dutyPct: 85, loadPct: 50, fluidC: 85 },
  referenceTorqueNm: null,
  lifeAt: () => 1,
  offsetKm: 0,
  fromStart: true,
};

/** One reading every 6 hours and 100 km. */
function makeReading(i: number, changes: Partial<StretchReading> = {}): StretchReading {
  return {
    atMs: START_MS + i * 6 * HOUR_MS,
    odometerKm: 100_000 + 100 * i,
    slipRpm: 20,
    dutyPct: 85,
    fluidC: 85,
    loadPct: 50,
    torquePct: null,
    speedKmh: 80,
    shifting: false,
    codes: null,
    ...changes,
  };
}
const make = (n: number, changes: (i: number) => Partial<StretchReading> = () => ({})) =>
  Array.from({ length: n }, (_, i) => makeReading(i, changes(i)));

it('runs as its note says', () => {
  expect(buildStretches([], rules).rows).toEqual([]);
});

it('makes a row for each 500 km at the reference point and in the band of the command', () => {
  const { rows } = buildStretches(make(10), rules);
  expect(rows.map(({ stretch, band, n }) => [stretch, band, n])).toEqual([
    [200, -1, 5],
    [200, 3, 5],
    [201, -1, 5],
    [201, 3, 5],
  ]);
  expect(rows[0]).toMatchObject({
    life: 1,
    firstAtMs: START_MS,
    lastAtMs: START_MS + 24 * HOUR_MS,
    slipRpm: 20,
  });
});

it('splits by command, and lets all commands into the series at the reference point', () => {
  const { rows } = buildStretches(
    make(5, (i) => ({ dutyPct: i < 2 ? 60 : 85, slipRpm: i < 2 ? 30 : 20 })),
    rules,
  );
  const [reference, low, high] = rows;
  expect(rows.map(({ band, n }) => [band, n])).toEqual([
    [-1, 5],
    [1, 2],
    [3, 3],
  ]);
  expect([low?.slipRpm, high?.slipRpm]).toEqual([30, 20]);
  expect(Math.abs((reference?.slipRpm ?? 0) - 20)).toBeLessThan(0.1);
});

describe('a signal that the feed lacks', () => {
  it('is null, with no cross products of it, and the readings are compared by what is known', () => {
    const slip = (i: number) => ({ slipRpm: 18 + (i % 5), dutyPct: 83 + (i % 5) });
    const lean = make(5, (i) => ({
      ...slip(i),
      fluidC: null,
      loadPct: null,
      speedKmh: null,
      shifting: null,
    }));
    const [row] = buildStretches(lean, rules).rows;
    const [atReference] = buildStretches(make(5, slip), rules).rows;
    expect(row).toEqual({
      ...atReference,
      fluidC: null,
      loadPct: null,
      moments: [...new Array<number>(7).fill(0), ...(atReference?.moments.slice(7) ?? [])],
    });
    expect(row?.moments[9]).toBeGreaterThan(1);
  });

  it('stays known where a few readings lack it, and those are left out', () => {
    const [row] = buildStretches(
      make(5, (i) => ({ slipRpm: 20 + i, fluidC: i < 2 ? null : 80 + i })),
      rules,
    ).rows;
    expect(row?.n).toBe(3);
    expect(row?.fluidC).toBeCloseTo(83, 1);
    expect(row?.slipRpm).toBeCloseTo(23, 1);
  });

  it('is unknown where most readings lack it', () => {
    const [row] = buildStretches(
      make(5, (i) => ({ fluidC: i < 3 ? null : 80 + i })),
      rules,
    ).rows;
    expect(row).toMatchObject({ n: 5, fluidC: null, loadPct: 50 });
  });
});

it('splits by life where a converter was changed within a stretch', () => {
  const { rows } = buildStretches(make(5), { ...rules, lifeAt: (km) => (km < 100_200 ? 1 : 2) });
  expect(rows.filter(({ band }) => band === -1).map(({ life, n }) => [life, n])).toEqual([
    [1, 2],
    [2, 3],
  ]);
});

describe('readings that are set aside', () => {
  it('are counted by month and reason, and stay out of the rows', () => {
    const { rows, totals } = buildStretches(
      make(10, (i) => (i === 1 ? { fluidC: 20 } : i === 8 || i === 9 ? { loadPct: 5 } : {})),
      rules,
    );
    expect(totals.map(({ setAside, usable }) => [setAside, usable])).toEqual([
      [{ '2025-01': { cold: 1 } }, 4],
      [{ '2025-02': { low_load: 2 } }, 3],
    ]);
    expect(rows.filter(({ band }) => band === -1).map(({ n }) => n)).toEqual([4, 3]);
  });

  it('count a wrong odometer in the stretch of the reading before it', () => {
    const { rows, totals } = buildStretches(
      make(10, (i) => (i === 3 ? { odometerKm: 7 } : {})),
      rules,
    );
    expect(totals.map(({ stretch }) => stretch)).toEqual([200, 201]);
    expect(totals[0]?.setAside).toEqual({ '2025-01': { odometer: 1 } });
    expect(rows[0]?.n).toBe(4);
  });

  it('make no row where nothing is left', () => {
    const { rows, totals } = buildStretches(
      make(5, () => ({ dutyPct: 0 })),
      rules,
    );
    expect(rows).toEqual([]);
    expect(totals).toMatchObject([{ usable: 0, setAside: { '2025-01': { not_commanded: 5 } } }]);
  });
});

it('goes on with the kilometres of the old instrument after a new one', () => {
  const { steps, totals } = buildStretches(
    make(40, (i) => (i < 20 ? {} : { odometerKm: 100 * (i - 20) })),
    rules,
  );
  expect(steps).toEqual([{ index: 20, offsetKm: 101_900 }]);
  expect(totals.map(({ stretch }) => stretch)).toEqual([200, 201, 202, 203, 204, 205, 206, 207]);
});

describe('exposure', () => {
  it('counts fluid and load of the usable readings, and no load where the feed has none', () => {
    const [with_] = buildStretches(
      make(5, (i) => ({ fluidC: [58, 65, 85, 85, 130][i] ?? 0 })),
      rules,
    ).totals;
    expect(with_?.fluidBins).toEqual([1, 1, 0, 2, 0, 0, 0]);
    expect(with_?.loadBins).toEqual([0, 0, 0, 4, 0, 0]);
    const [without] = buildStretches(
      make(5, () => ({ loadPct: null })),
      rules,
    ).totals;
    expect(without?.loadBins).toBeNull();
  });

  it('counts no fluid temperature where the feed has none, and only the readings that have it', () => {
    const [without] = buildStretches(
      make(5, () => ({ fluidC: null })),
      rules,
    ).totals;
    expect(without).toMatchObject({ usable: 5, fluidBins: [0, 0, 0, 0, 0, 0, 0] });
    const [some] = buildStretches(
      make(5, (i) => (i < 2 ? { fluidC: null } : {})),
      rules,
    ).totals;
    expect(some).toMatchObject({ usable: 5, fluidBins: [0, 0, 0, 3, 0, 0, 0] });
  });

  // 50 % of 1,200 N m at 20 rpm: 600 * 2 pi / 3 = 1,256.6 W.
  it('sums clutch heat where torque is known', () => {
    const known = { ...rules, referenceTorqueNm: 1_200 };
    const [total] = buildStretches(
      make(5, () => ({ torquePct: 50 })),
      known,
    ).totals;
    expect(total?.heatKwSum).toBeCloseTo(5 * 1.2566, 3);
    expect(total).toMatchObject({ heatN: 5, heatSpeedSum: 400 });
    expect(buildStretches(make(5), known).totals[0]).toMatchObject({ heatKwSum: 0, heatN: 0 });
  });
});

it('notes trouble codes, of readings that are set aside too, with first and last time', () => {
  const { totals } = buildStretches(
    make(5, (i) =>
      i === 1 ? { codes: ['P0741'], dutyPct: 0 } : i === 4 ? { codes: ['P0741', 'P0300'] } : {},
    ),
    rules,
  );
  const at = (i: number) => new Date(START_MS + i * 6 * HOUR_MS).toISOString();
  expect(totals[0]?.codes).toEqual({
    P0741: { first: at(1), last: at(4), n: 2 },
    P0300: { first: at(4), last: at(4), n: 1 },
  });
});

it('gives the same stretches to the last digit where the same readings come in again', () => {
  const { uniform, normal } = seededRandom(8);
  const readings = make(200, () => ({
    slipRpm: 20 + 4 * normal() + (uniform() < 0.02 ? 300 : 0),
    dutyPct: 42 + 58 * uniform(),
    fluidC: uniform() < 0.6 ? null : 50 + 40 * uniform(),
    loadPct: uniform() < 0.4 ? null : 100 * uniform(),
  }));
  const late = [...readings.filter((_, i) => i % 7 !== 0), ...readings.filter((_, i) => i % 7 === 0)];
  const sorted = late.toSorted((a, b) => a.atMs - b.atMs);
  expect(buildStretches(sorted, rules)).toEqual(buildStretches(readings, rules));
});

it('gives the stretches of a later window the same as those of the whole', () => {
  const { normal } = seededRandom(9);
  const readings = make(100, () => ({ slipRpm: 20 + 4 * normal() }));
  const whole = buildStretches(readings, rules).rows.filter(({ stretch }) => stretch >= 210);
  const window = buildStretches(readings.slice(40), { ...rules, fromStart: false }).rows;
  expect(window.filter(({ stretch }) => stretch >= 210)).toEqual(whole);
});
