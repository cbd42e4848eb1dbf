import { expect, it } from 'vitest';
import { parseRefusedSearch, patchRefusedSearch } from './refused-search.ts';

it('takes what is sound from an address and drops the rest', () => {
  const receipt = '3d5e0b6e-93f2-4c7e-8d8a-4a3b6f0c1d2e';
  const sound = { fault: 'duty_pct is missing', receipt, sender: 'key:a', state: 'laid_aside', line: 7 };
  expect(parseRefusedSearch({ ...sound, line: '7' })).toEqual(sound);
  expect(parseRefusedSearch({ fault: '', receipt: 'x', state: 'open', line: -1 })).toEqual({});
});

it('leaves the line with its fault, and the fault with its filter', () => {
  const search = { fault: 'a', sender: 'key:a', line: 7 };
  expect(patchRefusedSearch(search, { line: 8 })).toEqual({ ...search, line: 8 });
  expect(patchRefusedSearch(search, { fault: 'b' })).toEqual({ fault: 'b', sender: 'key:a' });
  expect(patchRefusedSearch(search, { sender: undefined })).toEqual({});
});
