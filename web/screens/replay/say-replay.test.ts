import { describe, expect, it } from 'vitest';
import { replayRequest } from '#server/contract/replay.ts';
import { usualThresholds } from '#server/contract/settings.ts';
import { makeReplay, makeResult } from '#tests/browser/fixtures/replay-fixture.ts';
import { metricUnits } from '#web/format/units.ts';
import { orderCame } from './came-table.tsx';
import { hasSameLimits, isLike, listBeside, listChanges } from './compare-replays.ts';
import { listDifferences, sayDifferences } from './list-differences.ts';
import { sayAgainst, sayBroken, sayReplay, sayScope, sayThreshold } from './say-replay.ts';
import { sayTimeLeft } from './say-time-left.ts';

const plain = (text: string | null): string => (text ?? '').replaceAll('\u00a0', ' ');
const names = { depot: (id: string) => `depot ${id}`, platform: (id: string) => `type ${id}` };
const result = makeResult();
const [list, level] = result.scores;
const withList = (changes: Partial<NonNullable<typeof list>>, failures = 25) =>
  makeResult({ failures, scores: [{ ...list!, ...changes }, ...result.scores.slice(1)] });

describe('the sentence of a replay', () => {
  it('says what was asked, found, how long before, what was needless and what that saved', () => {
    expect(plain(sayReplay(result, metricUnits))).toBe(
      'The list would have found 23 of 25 failures, 6,900 km before they came (middle), and missed 2. Of 61 inspections that it would have asked for, 34 were right and 4 needless; 20 were early: the clutch did slip, but its limit was further than 5,000 km away; of 3 it cannot be told yet. With all 61 inspections paid, about 41,000 saved.',
    );
    expect(plain(sayReplay(result, { distance: 'mi', temperature: 'F' }))).toContain(
      '4,300 mi before they came',
    );
  });

  it('says so where nothing came', () => {
    const quiet = withList({ found: 0, missed: 0, notice_km: null, notice_days: null }, 0);
    expect(plain(sayReplay(quiet, metricUnits))).toMatch(
      /^Nothing came in this period, so nothing could be found or missed\. Of 61 inspections that it would have asked for, 34 were right and 4 needless; 20 were early: /,
    );
    expect(plain(sayReplay(withList({ asked: 0, saved: 0 }, 0), metricUnits))).toBe(
      'Nothing came in this period, so nothing could be found or missed. It would have asked for no inspection. Nothing was spent or saved.',
    );
    expect(sayAgainst(quiet, metricUnits)).toBe(null);
  });

  it('says so where all or one was found, none in vain, or it cost more than it saved', () => {
    const all = withList({ found: 25, missed: 0, needless: 0, early: 0, undecided: 0, saved: -1_234 });
    expect(plain(sayReplay(all, metricUnits))).toMatch(
      /found all 25 failures, .* came \(middle\)\. .* 34 were right and 0 needless\. With all 61 inspections paid, it would have cost about 1,200 more than it saved\.$/,
    );
    const one = withList({ asked: 1, right: 1, needless: 0, early: 0, undecided: 0, found: 1, missed: 0 }, 1);
    expect(plain(sayReplay(one, metricUnits))).toMatch(
      /^The list would have found the one failure, 6,900 km before it came\. Of the one inspection that it would have asked for, 1 was right/,
    );
    const none = withList({ found: 0, missed: 25, notice_km: null });
    expect(plain(sayReplay(none, metricUnits))).toMatch(/^The list would have found none of 25 failures\./);
    expect(plain(sayReplay(withList({ found: 0, missed: 1, notice_km: null }, 1), metricUnits))).toMatch(
      /^The list would have missed the one failure\./,
    );
  });

  it('names the better of the plain rules', () => {
    expect(plain(sayAgainst(result, metricUnits))).toBe(
      'A fixed level of slip, the better of the plain rules, asking as often, would have found 19 (4 fewer), 6,100 km before they came (middle), with 11 needless and 33,000 saved. Its threshold was set afterwards, so that it asks as often; nobody knows it beforehand.',
    );
    expect(plain(sayAgainst(withList({ found: 12 }), metricUnits))).toContain('would have found 19 (7 more)');
  });
});

it('says at which threshold a rule asks', () => {
  expect(plain(sayThreshold(level!))).toBe('from 38 % of the limit, set to ask as often as the list');
  expect(plain(sayThreshold({ ...level!, matched: false }))).toBe('from 38 % of the limit');
  expect(plain(sayThreshold(list!))).toBe('');
});

it('says why a replay broke off, once and as sentences', () => {
  expect(sayBroken('The replay broke off. This was not foreseen.')).toBe(
    'This replay broke off. This was not foreseen. Nothing was changed; run it again.',
  );
  expect(sayBroken('the program was stopped')).toBe(
    'This replay broke off. The program was stopped. Nothing was changed; run it again.',
  );
  expect(sayBroken(null)).toContain('Nobody knows why. Nothing');
});

it('says which vehicles in which days', () => {
  const request = replayRequest.parse({ from: '2026-01-01', to: '2026-03-31', depots: ['north'] });
  expect(sayScope(request, names)).toBe('1 Jan to 31 Mar 2026, all platforms, depot north');
});

it('names what was tried and is not in use', () => {
  const tried = { ...usualThresholds, hold_chance: 0.3, quiet_days: 45 };
  const request = replayRequest.parse({
    from: '2026-01-01',
    to: '2026-03-31',
    thresholds: tried,
    limits_rpm: { a: 140, b: 150 },
  });
  const present = { thresholds: usualThresholds, limitOf: () => 150 };
  expect(plain(sayDifferences(listDifferences(request, present, names)))).toBe(
    'hold from a chance of 30 % instead of 25 %; unknown after 45 days instead of 30 days; limit of type a 140 rpm instead of 150 rpm',
  );
  expect(listDifferences(makeReplay().request, present, names)).toEqual([]);
});

it('puts what was missed first, then goes by day', () => {
  const ordered = orderCame(result.came);
  expect(ordered.slice(0, 3).map(({ vehicle, list: own }) => [vehicle, own === null])).toEqual([
    ['K-323', true],
    ['K-324', true],
    ['K-300', false],
  ]);
  expect(ordered).toHaveLength(25);
});

describe('two replays side by side', () => {
  const other = { ...list!, found: 21, missed: 4, needless: 7, saved: 40_000 };
  it('differ figure by figure, with their signs', () => {
    expect(listChanges(other, { ...list!, notice_km: null }, metricUnits)).toEqual([
      '0',
      '0',
      '0',
      '−3',
      '0',
      '+2',
      '−2',
      '–',
      '+1,000',
    ]);
  });
  it('are a table to keep, each line with its unit', () => {
    const { columns, rows } = listBeside([7, 6], [list!, other], metricUnits);
    expect(columns.map(({ title }) => title)).toEqual(['the list', 'replay 7', 'replay 6', 'difference']);
    expect(rows.find(([name]) => name === 'found')).toEqual(['found', '23', '21', '+2']);
    expect(rows.find(([name]) => name === 'notice, middle, km')).toEqual([
      ...['notice, middle, km', '6,900', '6,900', '0'],
    ]);
  });
  it('are judged alike where the same limits were tried, of whichever platform', () => {
    const { request } = makeReplay();
    const tried = { ...request, limits_rpm: { a: 140, b: 150 } };
    expect(hasSameLimits(request, request)).toBe(true);
    expect(hasSameLimits(tried, { ...request, limits_rpm: { b: 150, a: 140 } })).toBe(true);
    expect([hasSameLimits(tried, request), hasSameLimits(request, tried)]).toEqual([false, false]);
    expect(hasSameLimits(tried, { ...tried, limits_rpm: { a: 140, b: 151 } })).toBe(false);
  });
  it('are alike where days, vehicles and horizon are the same', () => {
    const { request } = makeReplay();
    expect(isLike(request, { ...request, thresholds: usualThresholds, note: 'x' })).toBe(true);
    expect(isLike(request, { ...request, platforms: ['a'] })).toBe(false);
    expect(isLike({ ...request, depots: ['a', 'b'] }, { ...request, depots: ['b', 'a'] })).toBe(true);
  });
});

it('tells the time left once it has seen enough of the way', () => {
  const from = { done: 1_000, ms: 0 };
  expect(sayTimeLeft(from, { done: 1_500, ms: 1_000 }, 9_000)).toBe(null);
  expect(sayTimeLeft(from, { done: 2_000, ms: 5_000 }, 9_000)).toBe('about 40 seconds left');
  expect(sayTimeLeft(from, { done: 2_000, ms: 20_000 }, 9_000)).toBe('about 3 minutes left');
  expect(sayTimeLeft(from, { done: 8_900, ms: 20_000 }, 9_000)).toBe('a few seconds left');
  expect(sayTimeLeft(from, { done: 1_000, ms: 20_000 }, 9_000)).toBe(null);
});
