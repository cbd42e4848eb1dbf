import { describe, expect, it } from 'vitest';
import type { SetUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { listChangeRows, sayLines, sayOutcome } from './say-outcome.ts';

const reply: SetUpFileReply = {
  kind: 'failures',
  dry_run: true,
  lines: 3,
  created: 4,
  changed: 1,
  unchanged: 1,
  changes: [],
  changes_total: 0,
  warnings: [],
  warnings_total: 0,
};

describe('what a file comes to', () => {
  it.each([
    [{}, 'book.csv has 3 lines: 4 converter lives would be created and 1 changed; 1 is as on record.'],
    [
      { kind: 'vehicles', dry_run: false, created: 0, unchanged: 0 },
      'book.csv had 3 lines: 1 vehicle was changed.',
    ],
    [
      { dry_run: false, changed: 0, unchanged: 2000 },
      'book.csv had 3 lines: 4 converter lives were created; 2,000 are as on record.',
    ],
    [{ created: 0, changed: 0, lines: 1 }, 'book.csv has 1 line. All that it says is on record already.'],
  ] as const)('is said in a sentence: %j', (part, words) => {
    expect(sayOutcome('book.csv', { ...reply, ...part })).toBe(words);
  });

  it.each([
    [{ count: 1, lines: [7] }, 'Line 7'],
    [{ count: 2, lines: [7, 9] }, 'Lines 7, 9'],
    [{ count: 1200, lines: [2, 3, 4, 5, 6, 7, 8] }, '1,200 lines (2, 3, 4, 5, 6, 7, …)'],
  ])('names lines: %j', (warning, words) => {
    expect(sayLines(warning)).toBe(words);
  });

  it('has a row for each column that changes, and one for what is new', () => {
    const rows = listChangeRows([
      {
        line: 2,
        subject: 'vehicle',
        id: 'B-1',
        action: 'changed',
        fields: [
          { field: 'depot', before: 'north', after: 'south' },
          { field: 'vin', before: 'X', after: null },
        ],
      },
      {
        line: 3,
        subject: 'vehicle',
        id: 'B-2',
        action: 'created',
        fields: [
          { field: 'depot', before: null, after: 'north' },
          { field: 'retired', before: null, after: 'no' },
        ],
      },
      { line: null, subject: 'vehicle', id: 'B-1', action: 'booking_cancelled', fields: [] },
    ]);
    expect(rows.map(({ line, field, before, after }) => [line, field, before, after])).toEqual([
      [2, 'depot', 'north', 'south'],
      [2, 'vin', 'X', null],
      [3, null, null, 'depot north, retired no'],
      [null, null, null, null],
    ]);
  });
});
