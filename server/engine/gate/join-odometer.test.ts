import { describe, expect, it } from 'vitest';
import { type JoinedOdometer, joinOdometer } from './join-odometer.ts';

const HOUR_MS = 3_600_000;
/** Four readings a day, 100 km apart: 20 of them take five days. */
const times = (n: number) => Array.from({ length: n }, (_, i) => i * 6 * HOUR_MS);
const track = (n: number, fromKm: number) => Array.from({ length: n }, (_, i) => fromKm + 100 * i);
const faults = (joined: JoinedOdometer) => joined.fault.flatMap((fault, i) => (fault ? [i] : []));
const kms = (joined: JoinedOdometer) => [...joined.odometerKm];

it('runs as its note says', () => {
  expect(joinOdometer([0, 3.6e6], [100, 160]).fault).toEqual([false, false]);
});

it('leaves a track as it is', () => {
  const joined = joinOdometer(times(20), track(20, 50_000));
  expect(kms(joined)).toEqual(track(20, 50_000));
  expect(joined).toMatchObject({ steps: [] });
  expect(faults(joined)).toEqual([]);
});

it('adds the offset in force', () => {
  expect(kms(joinOdometer(times(2), [100, 200], 5_000))).toEqual([5_100, 5_200]);
});

describe('a lone wrong value', () => {
  it.each([
    ['far ahead', 900_000],
    ['far back', 10],
  ])('is at fault %s, and the track goes on', (_, wrong) => {
    const given = track(20, 50_000).with(9, wrong);
    const joined = joinOdometer(times(20), given);
    expect(faults(joined)).toEqual([9]);
    expect(joined.odometerKm[9]).toBeNaN();
    expect(joined.odometerKm[10]).toBe(51_000);
    expect(joined.steps).toEqual([]);
  });
});

describe('limits', () => {
  it('lets an odometer go back by 5 km, and no more', () => {
    expect(joinOdometer([0, HOUR_MS], [100, 95]).fault).toEqual([false, false]);
    expect(joinOdometer([0, HOUR_MS], [100, 94.9]).fault).toEqual([false, true]);
  });

  it('lets it go ahead by 200 km an hour and 5 km, and no more', () => {
    expect(joinOdometer([0, HOUR_MS], [100, 305]).fault).toEqual([false, false]);
    expect(joinOdometer([0, HOUR_MS], [100, 305.1]).fault).toEqual([false, true]);
  });

  it('does not creep back by many small steps', () => {
    const joined = joinOdometer(times(6), [1_000, 997, 994, 991, 988, 985]);
    expect(faults(joined)).toEqual([2, 3, 4, 5]);
  });
});

describe('a step that persists', () => {
  const n = 40;
  it.each([
    ['back, a new instrument', 0],
    ['ahead, a used instrument', 400_000],
  ])('joins the tracks where it goes %s', (_, newStartKm) => {
    const given = [...track(20, 50_000), ...track(20, newStartKm)];
    const joined = joinOdometer(times(n), given);
    expect(joined.steps).toEqual([{ index: 20, offsetKm: 51_900 - newStartKm }]);
    expect(faults(joined)).toEqual([]);
    expect(kms(joined).slice(18, 23)).toEqual([51_800, 51_900, 51_900, 52_000, 52_100]);
  });

  it('is not believed before 12 readings', () => {
    const of = (after: number) =>
      joinOdometer(times(20 + after), [...track(20, 50_000), ...track(after, 0)]).steps.length;
    expect(of(11)).toBe(0);
    expect(of(12)).toBe(1);
  });

  it('is not believed within 2 days, however many readings', () => {
    const dense = Array.from({ length: 40 }, (_, i) => 20 * 6 * HOUR_MS + i * 0.5 * HOUR_MS);
    const given = [...track(20, 50_000), ...Array.from({ length: 40 }, (_, i) => 10 * i)];
    expect(joinOdometer([...times(20), ...dense], given).steps).toEqual([]);
  });

  it('is joined twice where the instrument was changed twice', () => {
    const given = [...track(20, 50_000), ...track(20, 0), ...track(20, 70_000)];
    const joined = joinOdometer(times(60), given);
    expect(joined.steps.map(({ index }) => index)).toEqual([20, 40]);
    const all = kms(joined);
    expect(all).toEqual([...all].sort((a, b) => a - b));
  });

  it('is taken as driven where the time since the last good reading allows it', () => {
    const joined = joinOdometer(times(40), [...track(20, 50_000), ...track(20, 56_000)]);
    expect(joined.steps).toEqual([]);
    expect(faults(joined)).toEqual([20, 21, 22]);
  });

  it('is not told where values are wrong at random', () => {
    const wild = [3, 800_000, 12, 650_000, 90_000, 4, 700_000, 1, 500_000, 33, 300_000, 7, 600_000, 2];
    const joined = joinOdometer(times(34), [...track(20, 50_000), ...wild]);
    expect(joined.steps).toEqual([]);
    expect(faults(joined)).toHaveLength(wild.length);
  });
});

describe('a wrong start', () => {
  const given = [...track(5, 300_000), ...track(20, 20_000)];

  it('is dropped for the track that follows', () => {
    const joined = joinOdometer(times(25), given);
    expect(faults(joined)).toEqual([0, 1, 2, 3, 4]);
    expect(joined.steps).toEqual([]);
    expect(joined.odometerKm[5]).toBe(20_000);
  });

  it('is a step where the readings do not begin with the vehicle', () => {
    const joined = joinOdometer(times(25), given, 0, false);
    expect(faults(joined)).toEqual([]);
    expect(joined.steps).toEqual([{ index: 5, offsetKm: 280_400 }]);
  });
});

it('goes on after a long gap as far as 200 km/h allow', () => {
  const month = 30 * 24 * HOUR_MS;
  expect(joinOdometer([0, month], [1_000, 9_000]).fault).toEqual([false, false]);
  expect(joinOdometer([0, month], [1_000, 1_000]).fault).toEqual([false, false]);
  expect(joinOdometer([0, month], [1_000, 200_000]).fault).toEqual([false, true]);
});

it('gives none for none, and refuses unequal lengths', () => {
  expect(joinOdometer([], [])).toEqual({ odometerKm: new Float64Array(0), fault: [], steps: [] });
  expect(() => joinOdometer([0], [])).toThrow('joinOdometer requires');
});
