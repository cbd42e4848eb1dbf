import { expect, it } from 'vitest';
import { makeStorageReport } from '#tests/browser/fixtures/storage-fixture.ts';
import { listMonthBins } from './list-month-bins.ts';
import { listSteps, sayDisk, sayGrowth, sayReadings, sayRetention, sayRunTime } from './say-storage.ts';
import { parseStorageSearch } from './storage-search.ts';

const report = makeStorageReport('2026-03-04T08:30:00Z');
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

it('says what is stored, and how it grows, as an estimate', () => {
  expect(plain(sayReadings(report))).toMatch(
    /^Readings are 3\.\d GiB of it: about [\d,]+, 11\d bytes each with their index\.$/,
  );
  expect(plain(sayGrowth(report))).toMatch(/^About 60,000 readings and 7\.3 MiB a day, as in Feb 2026\.$/);
  expect(sayGrowth({ ...report, growth: null })).toBe('Too little has come to say.');
});

it('says when the disk is full, why it is not, and where that is not known', () => {
  const disk = (full_on: string | null) =>
    plain(sayDisk({ ...report, disk: { free_bytes: 2 ** 37, full_on } }));
  expect(disk('2027-06-09')).toBe('128 GiB are free on its disk. At this rate it is full about Jun 2027.');
  expect(disk(null)).toMatch(/does not fill: retention takes away as much as comes/);
  expect(sayDisk({ ...report, disk: null })).toMatch(/on a server of yours/);
});

it('says what retention drops next', () => {
  expect(plain(sayRetention(report))).toMatch(
    /kept for 36 months.*Mar 2023 goes next, on 1 Apr 2026: \d+ MiB\.$/,
  );
  const retention = { ...report.retention, readings_months: 0, next: null };
  expect(sayRetention({ ...report, retention })).toBe('Readings are kept for ever.');
});

it('tells what a run did and what it could not do', () => {
  const runs = report.upkeep.runs.map((run) => listSteps(run).map(({ text }) => text));
  expect(runs).toContainEqual([
    'Made ahead: May 2026',
    'Dropped, past retention: Feb 2023',
    'Taken out: 3 ended sign-ins, 41 old events of webhooks',
  ]);
  expect(runs.flat()).toContain(
    'Not dropped, past retention: Others were using the table for too long; it is tried again.',
  );
  expect(report.upkeep.runs.map(sayRunTime).map(plain)).toContain('6 min');
});

it('draws months without a gap, and leaves out one that stands alone', () => {
  const bins = listMonthBins(report.months);
  expect(bins[0]?.month).toBe('2023-03');
  expect(bins.at(-1)?.month).toBe('2026-03');
  expect(bins).toHaveLength(37);
  expect(bins.find(({ month }) => month === '2024-08')?.stored).toBeNull();
  expect(listMonthBins([])).toEqual([]);
});

it('takes from an address what it knows', () => {
  expect(parseStorageSearch({ months: 'all', x: 1 })).toEqual({ months: 'all' });
  expect(parseStorageSearch({ months: 'some' })).toEqual({});
});
