import { describe, expect, it } from 'vitest';
import type { Missing, Reason } from '#server/engine/assessment/assessment-model.ts';
import { missingWords, reasonWords } from './reason-words.ts';

const book = new Map([['P0741', { meaning: 'converter clutch stuck off', counts: true }]]);
const said: [Reason, string][] = [
  [{ kind: 'past_limit', slipRpm: 161.6, limitRpm: 150 }, 'Slip is 162 rpm, past the limit of 150 rpm'],
  [
    { kind: 'risen', fromRpm: 18.2, toRpm: 74.7, overKm: 9_430, sinceKm: 110_000 },
    'Slip has risen from 18 to 75 rpm over 9,400 km',
  ],
  [
    { kind: 'reaches_limit', lowKm: 1_900, highKm: 5_200, limitRpm: 150 },
    'The limit of 150 rpm should be reached in 1,900 to 5,200 km',
  ],
  [
    { kind: 'reaches_limit', lowKm: 0, highKm: 99, limitRpm: 150 },
    'The limit of 150 rpm is reached about now',
  ],
  [
    { kind: 'high_on_arrival', slipRpm: 90, usualRpm: 15 },
    'Slip was high from the first readings: 90 rpm, where 15 rpm is usual',
  ],
  [
    { kind: 'jumped', byRpm: 42, atKm: 112_345 },
    'Slip jumped by 42 rpm at about 112,300 km and has stayed there',
  ],
  [
    { kind: 'band_speaks', fromPct: 70, toPct: 85, riseRpm: 33.3 },
    'Clearest at 70 to 85 % command: up 33 rpm',
  ],
  [
    { kind: 'hotter_worse', rpmPerC: 1.8, usualRpmPerC: 0.9 },
    'Worse when hot: 1.8 rpm for each degC, where 0.9 is usual',
  ],
  [
    { kind: 'jumps_reach_limit', lowKm: 2_000, highKm: 14_000, limitRpm: 150 },
    'If more such jumps follow, the limit of 150 rpm is reached in 2,000 to 14,000 km',
  ],
  [
    { kind: 'accelerating', nowRpmPerKm: 0.0121, usualRpmPerKm: 0.0049 },
    'The rise is getting steeper: 12 rpm per 1,000 km now, 5 rpm per 1,000 km on the whole so far',
  ],
  [
    { kind: 'code', code: 'P0741', n: 1, lastMs: Date.UTC(2025, 2, 4, 23) },
    'Trouble code P0741 (converter clutch stuck off), once, on 4 Mar 2025',
  ],
  [
    { kind: 'code', code: 'P0741', n: 3, lastMs: Date.UTC(2025, 2, 4) },
    'Trouble code P0741 (converter clutch stuck off), 3 times, last on 4 Mar 2025',
  ],
  [
    { kind: 'code', code: 'P0999', n: 2, lastMs: Date.UTC(2025, 2, 4) },
    'Trouble code P0999, 2 times, last on 4 Mar 2025',
  ],
  [
    { kind: 'fell_back', fromRpm: 88, toRpm: 17, atKm: 120_000 },
    'Slip fell from 88 to 17 rpm at about 120,000 km with no work on record',
  ],
  [
    { kind: 'fleet_moved', rpm: 25.2, vehicles: 40 },
    'All 40 vehicles of this platform moved by +25 rpm together; that is taken out',
  ],
  [
    { kind: 'fleet_moved', rpm: -12, vehicles: 40 },
    'All 40 vehicles of this platform moved by -12 rpm together; that is taken out',
  ],
  [{ kind: 'no_drift', slipRpm: 17.6, overKm: 24_000 }, 'Slip has held at 18 rpm over 24,000 km'],
];

it.each(said)('puts words to %o', (reason, words) => {
  expect(reasonWords(reason, 'metric', book)).toBe(words);
});

// 1 rpm for each degC is 1 / 1.8 rpm for each degF (NIST SP 811, B.8).
it('speaks miles and Fahrenheit where asked', () => {
  expect(reasonWords({ kind: 'hotter_worse', rpmPerC: 1.8, usualRpmPerC: 0.9 }, 'imperial', book)).toBe(
    'Worse when hot: 1.0 rpm for each degF, where 0.5 is usual',
  );
  expect(reasonWords({ kind: 'no_drift', slipRpm: 18, overKm: 16_093.44 }, 'imperial', book)).toBe(
    'Slip has held at 18 rpm over 10,000 mi',
  );
});

describe('what is missing', () => {
  const missing: [Missing, RegExp][] = [
    [{ kind: 'few_stretches', have: 2, need: 6 }, /^Only 2 of the 6 stretches/],
    [{ kind: 'no_platform', limitRpm: 150 }, /limit of 150 rpm is assumed$/],
    [{ kind: 'no_load' }, /no engine load.*intervals are wider$/],
    [{ kind: 'no_temperature' }, /no fluid temperature.*intervals are wider$/],
    [{ kind: 'quiet', days: 21 }, /^No readings for 21 days$/],
    [{ kind: 'small_platform', vehicles: 3 }, /only 3 vehicles/],
    [{ kind: 'short_start' }, /healthy start.*hardly seen.*usual on its platform$/],
    [{ kind: 'no_usable' }, /passed the gate/],
  ];
  it.each(missing)('is said for %o', (one, words) => {
    expect(missingWords(one)).toMatch(words);
  });
});
