import { expect, it } from 'vitest';
import { writeTabbed } from './numbers.ts';

it('writes figures as a spreadsheet reads them: no separators, an ASCII minus, nothing for no figure', () => {
  const text = writeTabbed([
    {
      caption: 'Stretches',
      columns: [
        { title: 'series', kind: 'word' },
        { title: 'odometer km', kind: 'figure' },
        { title: 'slip rpm', kind: 'figure' },
        { title: 'load %', kind: 'figure' },
      ],
      rows: [['40 to 55 %, low', '371,204', '−1.5', '–']],
    },
  ]);
  expect(text).toBe('Stretches\nseries\todometer km\tslip rpm\tload %\n40 to 55 %, low\t371204\t-1.5\t');
});
