import { expect, it } from 'vitest';
import { parseSearchText, writeSearchText } from './search-text.ts';

it('keeps unit numbers that look like numbers as they are', () => {
  expect(parseSearchText('?q=00417&open=1e5')).toEqual({ q: '00417', open: '1e5' });
  expect(writeSearchText({ q: '00417', horizon_km: 3000 })).toBe('?q=00417&horizon_km=3000');
});

it('leaves commas readable and drops what is not there', () => {
  expect(writeSearchText({ grade: 'hold,book', q: undefined })).toBe('?grade=hold,book');
  expect(writeSearchText({})).toBe('');
});

it('takes back what it wrote, whatever the characters', () => {
  const search = { open: 'A&B=C+D/É #1?%2C', compare: 'x%2Cy,z' };
  expect(parseSearchText(writeSearchText(search))).toEqual(search);
});
