import { describe, expect, it } from 'vitest';
import { type PlatformContext, unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { defaultWearPrior } from '#server/engine/wear/wear-model.ts';
import { platformSettings } from '#tests/helpers/engine-settings.ts';
import { makeStretch } from '#tests/helpers/make-stretch.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { assessVehicle } from './assess-vehicle.ts';
import type { AssessmentInput } from './assessment-input.ts';

const platform: PlatformContext = {
  ...unknownPlatform,
  vehicles: 50,
  wear: { ...defaultWearPrior, baselineRpm: 15, baselineSd: 6 },
};
const nothing: AssessmentInput = {
  stretches: [],
  life: { number: 1, fittedKm: null },
  nowKm: null,
  nowMs: Date.UTC(2025, 11, 1),
  lastReadingMs: null,
  codes: [],
  hasPlatform: true,
};

/** A vehicle with stretches at the reference point and at two commands, slip by a curve of the stretch's number. */
function makeInput(
  n: number,
  curve: (i: number) => number,
  changes: Partial<AssessmentInput> = {},
): AssessmentInput {
  const { normal } = seededRandom(17);
  const stretches = [-1, 1, 3].flatMap((band) =>
    Array.from({ length: n }, (_, i) => makeStretch(i, curve(i) + 2 * normal(), { band })),
  );
  const last = makeStretch(n - 1, 0);
  return {
    ...nothing,
    stretches,
    nowKm: last.odometerKm + 250,
    nowMs: last.lastAtMs,
    lastReadingMs: last.lastAtMs,
    ...changes,
  };
}
const assess = (input: AssessmentInput) => assessVehicle(input, platformSettings, platform, 5_000);
const drift = (i: number) => 18 + Math.max(0, i - 30) * 3;

it('runs as its note says', () => {
  expect(
    assessVehicle({ ...nothing, stretches: [] }, platformSettings, unknownPlatform, 5_000).missing,
  ).toContainEqual({
    kind: 'no_usable',
  });
});

it.each([
  ['healthy', makeInput(60, () => 18)],
  ['drifting', makeInput(60, drift, { codes: [{ code: 'P0741', n: 2, lastMs: Date.UTC(2025, 3, 1) }] })],
  ['jumped', makeInput(60, (i) => (i < 40 ? 18 : 70))],
  ['slipping on arrival', makeInput(10, () => 120)],
  ['seen too little', makeInput(3, () => 20)],
  ['never seen', nothing],
])('is the same to the last digit in what a lean assessment has, for one that is %s', (_, input) => {
  const lean = assessVehicle(input, platformSettings, platform, 5_000, [5_000]);
  const { passage, forecast, fitLine, bandRises, pattern, reasons, chances, ...whole } = assess(input);
  expect(lean).toMatchObject(whole);
  expect(lean.chances).toEqual(chances.filter(([km]) => km === 5_000));
});

it('finds nothing in a healthy vehicle but its sudden failures', () => {
  const found = assess(makeInput(60, () => 18));
  expect(found).toMatchObject({ pattern: 'none', onset: null, passage: null, forecast: [], life: 1 });
  expect(found.p).toBeGreaterThan(0.05);
  expect(found.chanceWithinHorizon).toBeLessThan(found.suddenChance + 0.01);
  expect(found.reasons.map(({ kind }) => kind)).toEqual(['no_drift']);
});

// From stretch 30 (115,250 km) on 3 rpm a stretch, 6 rpm per 1,000 km: after 50 stretches 75 rpm, and 12,500 km left.
describe('a drifting vehicle', () => {
  const found = assess(makeInput(50, drift));

  it('has its onset, level, rate and distance told', () => {
    expect(found.p).toBeLessThan(1e-6);
    expect(Math.abs((found.onset?.estimate ?? 0) - 115_250)).toBeLessThan(2_500);
    expect(Math.abs((found.levelRpm ?? 0) - 75)).toBeLessThan(4);
    expect(Math.abs((found.driftRpmPerKm?.estimate ?? 0) * 1_000 - 6)).toBeLessThan(1.2);
    expect(found.passage?.p10).toBeLessThan(12_500);
    expect(found.passage?.p90).toBeGreaterThan(12_500);
  });

  it('has chances that rise with the way ahead, a fan that opens and a line through its stretches', () => {
    const chances = found.chances.map(([, chance]) => chance);
    expect(chances).toEqual([...chances].sort((a, b) => a - b));
    // From the odometer now, 250 km past the middle of the last stretch.
    expect(found.forecast[0]?.km).toBeCloseTo(125_000, 6);
    for (const { slipRpm } of found.forecast) expect(slipRpm).toEqual([...slipRpm].sort((a, b) => a - b));
    expect(Math.abs((found.fitLine[0]?.[1] ?? 0) - 18)).toBeLessThan(2);
    expect(Math.abs((found.fitLine.at(-1)?.[1] ?? 0) - 75)).toBeLessThan(4);
  });

  it('has its pace from the last 60 days', () => {
    expect(found.kmPerDay).toBeCloseTo(500 / 1.5, 6);
  });

  it('rises in both bands', () => {
    expect(found.bandRises.map(({ band }) => band)).toEqual([1, 3]);
    for (const { riseRpm } of found.bandRises) expect(riseRpm).toBeGreaterThan(30);
  });
});

describe('a vehicle that slips on first contact', () => {
  it.each([165, 220, 420])('counts as past the limit at %d rpm, though no drift was seen', (level) => {
    const found = assess(makeInput(20, () => level));
    expect(found.chancePastLimit).toBeGreaterThan(0.95);
    expect(found.chanceWithinHorizon).toBeGreaterThan(0.95);
    expect(found.passage).toEqual({ p10: 0, p50: 0, p90: 0 });
    expect(found.reasons[0]).toMatchObject({ kind: 'past_limit' });
    expect(found.pattern).toBe(level > 375 ? 'full_slip' : 'slipping_on_arrival');
  });

  it('is told from its level after three stretches', () => {
    const found = assess(makeInput(3, () => 220));
    expect(found.p).toBeLessThan(0.001);
    expect(found.missing).toContainEqual({ kind: 'few_stretches', have: 3, need: 6 });
  });
});

it('tells a jump that stays from a drift', () => {
  const found = assess(makeInput(50, (i) => (i < 25 ? 18 : 60)));
  expect(found.pattern).toBe('step_then_level');
  expect(found.stepping).toBeGreaterThan(0.9);
  const kinds = found.reasons.map(({ kind }) => kind);
  expect(kinds).toContain('jumped');
  expect(kinds).not.toContain('risen');
  expect(kinds).not.toContain('accelerating');
});

it('begins anew at a fall back to healthy that nobody reported, and forgets older codes', () => {
  const fallKm = makeStretch(40, 0).odometerKm;
  const found = assess(
    makeInput(60, (i) => (i < 40 ? 18 + 2 * i : 18), {
      codes: [{ code: 'P0741', n: 3, lastMs: makeStretch(10, 0).lastAtMs }],
    }),
  );
  expect(found).toMatchObject({ pattern: 'fell_back', codes: [], fromKm: fallKm });
  expect(found.reasons).toContainEqual(expect.objectContaining({ kind: 'fell_back', atKm: fallKm }));
});

it('no longer tells of the clutch before once two healthy stretches follow a large fall', () => {
  const before = assess(makeInput(41, (i) => (i < 40 ? 18 + 3 * i : 18)));
  expect(before.chanceWithinHorizon).toBeGreaterThan(0.5);
  const after = assess(makeInput(42, (i) => (i < 40 ? 18 + 3 * i : 18)));
  expect(after).toMatchObject({ pattern: 'fell_back', fromKm: makeStretch(40, 0).odometerKm });
  expect(after.missing).toContainEqual({ kind: 'few_stretches', have: 2, need: 6 });
  expect(after.chanceWithinHorizon).toBeLessThan(0.06);
});

it('looks at the life that is asked for', () => {
  const old = makeInput(50, drift);
  const fresh = Array.from({ length: 12 }, (_, i) => makeStretch(50 + i, 18, { life: 2 }));
  const found = assess({
    ...old,
    stretches: [...old.stretches, ...fresh],
    life: { number: 2, fittedKm: 125_000 },
  });
  expect(found).toMatchObject({ life: 2, pattern: 'none' });
  expect(found.levelRpm).toBeLessThan(25);
});

describe('what is missing', () => {
  it('names a code where nothing else is known', () => {
    const found = assess({ ...nothing, codes: [{ code: 'P0741', n: 1, lastMs: 0 }] });
    expect(found).toMatchObject({ pattern: 'code_only', levelRpm: null, p: null });
    expect(found.reasons).toEqual([{ kind: 'code', code: 'P0741', n: 1, lastMs: 0 }]);
  });

  it('says few stretches, no platform, a small one, no load or temperature, and a quiet gateway', () => {
    const few = makeInput(4, () => 18);
    const kinds = (changes: Partial<AssessmentInput>, context = platform) =>
      assessVehicle({ ...few, ...changes }, platformSettings, context, 5_000).missing.map(({ kind }) => kind);
    expect(kinds({})).toEqual(['few_stretches']);
    expect(kinds({ hasPlatform: false })).toContain('no_platform');
    expect(kinds({}, { ...platform, vehicles: 7 })).toContain('small_platform');
    expect(kinds({ stretches: few.stretches.map((row) => ({ ...row, loadPct: null })) })).toContain(
      'no_load',
    );
    expect(kinds({ stretches: few.stretches.map((row) => ({ ...row, fluidC: null })) })).toEqual([
      'few_stretches',
      'no_temperature',
    ]);
    const gained = few.stretches.map((row, i) => (i % 4 < 2 ? { ...row, fluidC: null, loadPct: null } : row));
    expect(kinds({ stretches: gained })).toEqual(['few_stretches']);
    const quiet = (days: number) => kinds({ nowMs: few.nowMs + days * 86_400_000 });
    expect(quiet(13)).not.toContain('quiet');
    expect(quiet(14)).toContain('quiet');
  });

  it('says that the healthy start was hardly seen, of a vehicle that drifts from its first stretches', () => {
    const kinds = (startsAt: number) =>
      assess(makeInput(40, (i) => 18 + 3 * Math.max(0, i - startsAt))).missing.map(({ kind }) => kind);
    expect(kinds(0)).toEqual(['short_start']);
    expect(kinds(20)).toEqual([]);
    expect(assess(makeInput(40, () => 18)).missing).toEqual([]);
  });

  it('has no p of a healthy vehicle with few stretches', () => {
    expect(assess(makeInput(4, () => 18)).p).toBeNull();
  });
});

it('counts no sudden failures where the life of the platform is not known', () => {
  const input = makeInput(30, () => 18);
  expect(assessVehicle(input, { ...platformSettings, life: null }, platform, 5_000).suddenChance).toBe(0);
});
