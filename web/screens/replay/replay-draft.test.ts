import { describe, expect, it } from 'vitest';
import { replayRequest } from '#server/contract/replay.ts';
import { usualThresholds } from '#server/contract/settings.ts';
import { metricUnits } from '#web/format/units.ts';
import { draftOf, readReplayDraft, toDraft, toSearch } from './replay-draft.ts';
import { parseReplaySearch, splitLimits } from './replay-search.ts';

const present = { until: '2026-03-04', thresholds: usualThresholds, units: metricUnits };
const read = (search: Record<string, unknown>) =>
  readReplayDraft(toDraft(parseReplaySearch(search), present), present);

describe('the address of a replay', () => {
  it('keeps what is sound and lets the rest fall away', () => {
    expect(parseReplaySearch({ id: '7', compare: '6', hold: '30', horizon_km: '4000' })).toEqual({
      ...{ id: 7, compare: 6, hold: '30', horizon_km: 4000 },
    });
    expect(parseReplaySearch({ id: 'x', compare: '6', note: ' ', level: 'y'.repeat(21) })).toEqual({});
    expect(parseReplaySearch({ id: '7', compare: '7' })).toEqual({ id: 7 });
  });

  it('carries limits of any platform there and back', () => {
    const draft = { ...toDraft({}, present), limits: { 'a,b:c': '140', 'ü d': '1,200', none: ' ' } };
    const { limits } = toSearch(draft, present);
    expect(splitLimits(limits)).toEqual({ 'a,b:c': '140', 'ü d': '1,200' });
    expect(splitLimits('%,a:,:5')).toEqual({});
  });

  it('is empty where the form stands as it is in use', () => {
    expect(toSearch(toDraft({}, present), present)).toEqual({});
  });

  it('says again what an earlier replay asked for', () => {
    const request = replayRequest.parse({
      ...{
        from: '2025-06-01',
        to: '2025-11-30',
        platforms: ['a'],
        horizon_km: 4_000,
        limits_rpm: { a: 140 },
      },
      thresholds: { ...usualThresholds, hold_chance: 0.3 },
      rules: { slip_level_pct: 40, weekly_rise_rpm: null },
      note: 'again',
    });
    const search = parseReplaySearch({ ...toSearch(draftOf(request, present), present) });
    const { question } = read({ ...search });
    expect(replayRequest.parse(question)).toEqual(request);
  });
});

describe('what is asked for', () => {
  it('is the last half year with all in use, where nothing is said', () => {
    const { question, faults } = read({});
    expect(faults).toEqual({});
    expect(question).toMatchObject({
      from: '2025-09-04',
      to: '2026-03-04',
      platforms: [],
      horizon_km: 5_000,
    });
    expect(question).not.toHaveProperty('thresholds');
    expect(replayRequest.safeParse(question).success).toBe(true);
  });

  it('says at each field what is wrong with it', () => {
    const { question, faults } = read({
      ...{
        from: '2026-02-30',
        to: '2026-03-05',
        hold: '0',
        horizon_km: 400,
        limits: 'a:5',
        level: 'x',
        rise: '0',
      },
    });
    expect(question).toBe(null);
    expect(faults).toEqual({
      from: 'A first day is needed.',
      to: 'This day has not come yet, or nothing is known of it.',
      horizon_km: 'Not below 500 km.',
      'thresholds.hold_chance': 'Not below 1 %.',
      'limits_rpm.a': 'Not below 10 rpm.',
      'rules.slip_level_pct': 'This is no number: write it as 1200 or 2.5.',
      'rules.weekly_rise_rpm': 'Not below 0.1 rpm.',
    });
  });

  it('is two years at most, and ends after it begins', () => {
    expect(read({ from: '2024-03-04', to: '2026-03-04' }).faults).toEqual({});
    expect(read({ from: '2024-03-03', to: '2026-03-04' }).faults.to).toContain('732 days');
    expect(read({ from: '2026-02-02', to: '2026-02-01' }).faults.to).toBe('It is before the first day.');
  });

  it('takes the horizon in miles from who reads miles', () => {
    const inMiles = { ...present, units: { distance: 'mi', temperature: 'F' } as const };
    const draft = { ...toDraft({}, inMiles), horizon: '3,000' };
    // 1 mi is 1.609344 km (NIST SP 811).
    expect(readReplayDraft(draft, inMiles).question?.horizon_km).toBe(4_828);
    expect(toSearch(draft, inMiles)).toEqual({ horizon_km: 4_828 });
  });
});
