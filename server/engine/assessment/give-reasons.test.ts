import { expect, it } from 'vitest';
import { platformSettings } from '#tests/helpers/engine-settings.ts';
import { makeCaseSummary } from '#tests/helpers/make-case-summary.ts';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import { giveReasons, type ReasonEvidence } from './give-reasons.ts';

const evidence: ReasonEvidence = {
  summary: makeCaseSummary(),
  settings: platformSettings,
  points: Array.from({ length: 40 }, (_, i) => makePoint(i, 20 + i)),
  passage: { p10: 5_000, p50: 9_000, p90: 15_000 },
  pattern: 'drift_all_commands',
  bandRises: [
    { band: 0, riseRpm: 30, seRpm: 10 },
    { band: 2, riseRpm: 50, seRpm: 5 },
  ],
  hotRpmPerC: { own: 0.2, usual: 0.2 },
  usualRpm: 15,
  codes: [],
  fall: null,
  events: [],
  arrivedSlipping: false,
  nowRpmPerKm: 0.012,
  risen: true,
};
const kinds = (changes: Partial<ReasonEvidence>) =>
  giveReasons({ ...evidence, ...changes }).map((reason) => reason.kind);

it('runs as its note says', () => {
  expect(giveReasons({ ...evidence, points: [] })).toEqual([]);
});

it('says how far slip has risen, when it reaches the limit, and where it is clearest', () => {
  expect(giveReasons(evidence)).toEqual([
    { kind: 'risen', fromRpm: 20, toRpm: 80, overKm: 9_750, sinceKm: 110_000 },
    { kind: 'reaches_limit', lowKm: 5_000, highKm: 15_000, limitRpm: 150 },
    { kind: 'band_speaks', fromPct: 70, toPct: 85, riseRpm: 50 },
  ]);
});

it('puts a passed limit first, and says no distance to it', () => {
  const summary = { ...evidence.summary, level: { mean: 160, sd: 2 } };
  expect(kinds({ summary })).toEqual(['past_limit', 'risen', 'band_speaks']);
});

it('says of a jump how large it is, where, and when the limit comes if it goes on, never a steeper rise', () => {
  const summary = { ...evidence.summary, drifting: 0.02, stepping: 0.95, accelerating: 0.9 };
  const jump = { summary, pattern: 'step_then_level' as const, bandRises: [] };
  expect(giveReasons({ ...evidence, ...jump })).toEqual([
    { kind: 'jumped', byRpm: 45, atKm: 110_000 },
    { kind: 'jumps_reach_limit', lowKm: 5_000, highKm: 15_000, limitRpm: 150 },
  ]);
  expect(kinds({ ...jump, pattern: 'slipping_on_arrival', arrivedSlipping: true })).toEqual([
    'high_on_arrival',
    'jumps_reach_limit',
  ]);
});

it('names a trouble code, heat, a steeper rise, a fall and an event of the fleet within what was seen', () => {
  const monday = Date.UTC(2025, 0, 6);
  const week = Math.floor((monday - 4 * 86_400_000) / (7 * 86_400_000));
  const fleet = { sizeRpm: 25, vehicles: 40 };
  expect(
    kinds({
      summary: { ...evidence.summary, accelerating: 0.9 },
      pattern: 'drift_hot',
      codes: [{ code: 'P0741', n: 2, lastMs: 0 }],
      fall: { fromRpm: 80, toRpm: 18, atKm: 100_000 },
      events: [
        { ...fleet, week: week + 2 },
        { ...fleet, week: week - 1 },
        { ...fleet, week: week + 300 },
      ],
    }),
  ).toEqual([
    'code',
    'risen',
    'reaches_limit',
    'band_speaks',
    'hotter_worse',
    'accelerating',
    'fell_back',
    'fleet_moved',
  ]);
});

it('says over what way slip has held where nothing rose, and nothing of the kind after one stretch', () => {
  expect(giveReasons({ ...evidence, risen: false })).toEqual([
    { kind: 'no_drift', slipRpm: 80, overKm: 39 * 500 },
  ]);
  expect(kinds({ risen: false, points: evidence.points.slice(0, 1) })).toEqual([]);
});

it('names no band whose rise is within two standard errors', () => {
  expect(kinds({ bandRises: [{ band: 0, riseRpm: 10, seRpm: 5 }] })).not.toContain('band_speaks');
});
