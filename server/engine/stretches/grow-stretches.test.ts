import { expect, it } from 'vitest';
import { gateRules } from '#tests/helpers/engine-settings.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { buildStretches, type StretchReading } from './build-stretches.ts';
import {
  beginStretches,
  type GrowingStretches,
  type GrowthRules,
  growStretches,
  nameStretch,
  partBefore,
  trimStretches,
} from './grow-stretches.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const START_MS = Date.UTC(2025, 0, 30);

const rules: GrowthRules = {
  gate: gateRules,
  bandEdgesPct: [40, 55, 70, 85, 100],
  reference: { dutyPct: 85, loadPct: 50, fluidC: 85 },
  referenceTorqueNm: 900,
  lifeAt: (km) => (km < 103_300 ? 1 : 2),
};

const begun = beginStretches({
  rows: [],
  totals: [],
  guard: [],
  offsetKm: 0,
  fromStart: true,
  fixedBeforeMs: Number.NEGATIVE_INFINITY,
  sealed: new Set(),
});

/** A feed with all that can go wrong of an odometer: glitches, a new instrument, rounding back over a border, a wrong start. */
function makeFeed(seed: number, n: number): { known: number; reading: StretchReading }[] {
  const { uniform, normal } = seededRandom(seed);
  const change = 0.3 + 0.5 * uniform();
  const wrongStart = uniform() < 0.3 ? Math.floor(1 + 10 * uniform()) : 0;
  return Array.from({ length: n }, (_, i) => {
    const km = 100_000 + 37 * i - (uniform() < 0.1 ? 4 * uniform() : 0);
    const shown = i < wrongStart ? 5_000 : i > change * n ? km - 99_000 : uniform() < 0.03 ? km + 7_000 : km;
    const atMs = START_MS + i * 5 * HOUR_MS;
    const late = uniform() < 0.05 ? uniform() * 20 * DAY_MS : 0;
    return {
      known: atMs + late,
      reading: {
        atMs,
        odometerKm: shown,
        slipRpm: 20 + 3 * normal(),
        dutyPct: 40 + 60 * uniform(),
        fluidC: uniform() < 0.05 ? 40 : 85,
        loadPct: uniform() < 0.1 ? null : 50 + 5 * normal(),
        torquePct: 60,
        speedKmh: 80,
        shifting: uniform() < 0.02,
        codes: uniform() < 0.02 ? ['P0741'] : null,
      },
    };
  });
}

const inOrder = <T extends { life: number; stretch: number; band?: number }>(list: readonly T[]) =>
  list.toSorted((a, b) => `${nameStretch(a)} ${a.band}`.localeCompare(`${nameStretch(b)} ${b.band}`));

function compare({ rows, totals, steps }: GrowingStretches, readings: readonly StretchReading[]) {
  const all = buildStretches(readings, { ...rules, offsetKm: 0, fromStart: true });
  expect(inOrder(rows)).toEqual(inOrder(all.rows));
  expect(inOrder(totals)).toEqual(inOrder(all.totals));
  return { steps, all: all.steps.map(({ index, offsetKm }) => ({ atMs: readings[index]?.atMs, offsetKm })) };
}

it('runs as its note says', () => {
  expect(growStretches(begun, [], rules)).toBe(begun);
  expect(trimStretches(begun, 0)).toBe(begun);
  expect(partBefore([], 1_000)).toBe(1_000);
  expect(nameStretch({ life: 1, stretch: 200 })).toBe('1 200');
});

it.each([1, 2, 3, 4, 5, 6, 7, 8])('comes day by day to what all readings at once give, feed %i', (seed) => {
  const feed = makeFeed(seed, 260);
  let grown = begun;
  let looks = 0;
  for (let day = 1; day <= 56; day++) {
    const [fromMs, toMs] = [START_MS + (day - 1) * DAY_MS, START_MS + day * DAY_MS];
    const fresh = feed.filter(({ known }) => known >= fromMs && known < toMs);
    grown = growStretches(
      grown,
      fresh.map(({ reading }) => reading),
      rules,
    );
    const waiting = feed.filter(({ known }) => known >= toMs).map(({ reading }) => reading.atMs);
    grown = trimStretches(grown, Math.min(toMs, ...waiting));
    if (day % 5 !== 0) continue;
    const known = feed.filter((one) => one.known < toMs).map(({ reading }) => reading);
    compare(grown, known);
    looks++;
  }
  expect(looks).toBe(11);
  // Something was forgotten on the way, else the test says nothing of it.
  expect(grown.readings.length).toBeLessThan(200);
});

it('goes on from stretches that were stored, with some readings before them', () => {
  const feed = makeFeed(11, 200).map(({ reading }) => reading);
  const early = feed.slice(0, 120);
  const built = buildStretches(early, { ...rules, offsetKm: 0, fromStart: true });
  const last = built.totals.reduce((a, b) => (b.lastAtMs > a.lastAtMs ? b : a));
  const stays = built.totals.filter((total) => total.lastAtMs < last.firstAtMs);
  const names = new Set(stays.map(nameStretch));
  const at = early.findIndex(({ atMs }) => atMs >= last.firstAtMs);
  const step = built.steps.filter(({ index }) => index <= at - 24).at(-1);
  const grown = growStretches(
    beginStretches({
      rows: built.rows.filter((row) => names.has(nameStretch(row))),
      totals: stays,
      guard: early.slice(at - 24, at),
      offsetKm: step?.offsetKm ?? 0,
      fromStart: false,
      fixedBeforeMs: last.firstAtMs,
      sealed: new Set(),
    }),
    feed.slice(at),
    rules,
  );
  compare(grown, feed);
});

it('leaves sealed stretches as they are', () => {
  const feed = makeFeed(12, 80).map(({ reading }) => reading);
  const built = buildStretches(feed, { ...rules, offsetKm: 0, fromStart: true });
  const sealed = new Set(built.totals.slice(0, 2).map(nameStretch));
  const from = feed.findIndex(({ atMs }) => atMs > (built.totals[1]?.firstAtMs ?? 0));
  const stored = {
    rows: built.rows.filter((row) => sealed.has(nameStretch(row))),
    totals: built.totals.slice(0, 2),
  };
  const grown = growStretches(
    beginStretches({
      ...stored,
      guard: [],
      offsetKm: 0,
      fromStart: false,
      fixedBeforeMs: Number.NEGATIVE_INFINITY,
      sealed,
    }),
    feed.slice(from),
    rules,
  );
  expect(inOrder(grown.totals.filter((one) => sealed.has(nameStretch(one))))).toEqual(inOrder(stored.totals));
  expect(grown.totals.length).toBeGreaterThan(3);
  expect(new Set(grown.totals.map(nameStretch)).size).toBe(grown.totals.length);
});
