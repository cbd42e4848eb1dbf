import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { causeWords, modeWords } from '#server/contract/packet-words.ts';
import { causes } from '#server/contract/words.ts';
import { nameMode } from './name-mode.ts';

it.each([
  ['Clutch lining worn or glazed', 'lining worn'],
  ['lining_worn', 'lining worn'],
  ['Lining  Worn', 'lining worn'],
  ['piston seal', 'apply seal leaking'],
  ['Valve stuck', 'valve sticking'],
])('takes %s as %s', (written, mode) => {
  expect(nameMode(written)).toBe(mode);
});

it('leaves modes of the fleet’s own as they were written', () => {
  expect(nameMode('Lock-up lost')).toBe('Lock-up lost');
  expect(nameMode(null)).toBeNull();
});

it('has one word for each cause, and no two causes have the same', () => {
  expect(new Set(Object.values(modeWords)).size).toBe(causes.length);
  for (const cause of causes)
    expect([causeWords[cause], modeWords[cause]].map(nameMode)).toEqual([modeWords[cause], modeWords[cause]]);
});

it('was given by the migration to what closed packets had written', () => {
  const sql = readFileSync('db/migrations/0012_life-weeks.sql', 'utf8');
  for (const cause of causes) expect(sql).toContain(`('${causeWords[cause]}', '${modeWords[cause]}')`);
});
