import { expect, it } from 'vitest';
import { nameCode } from './code-book.ts';
import { findClutchCodes } from './find-clutch-codes.ts';

const listed = (meaning: string, counts = true) => ({ meaning, counts });
const book = new Map([
  ['P0741', listed('stuck off')],
  ['P0742', listed('stuck on', false)],
  ['SPN 573', listed('lockup engaged')],
  ['SPN 573 FMI 9', listed('lockup engaged, not updated', false)],
]);
const at = '2026-01-02T00:00:00Z';
const found = (...codes: string[]) =>
  findClutchCodes(
    book,
    codes.map((code, i) => ({ code, n: i + 1, first: at, last: at })),
  ).map(({ code }) => code);

it('finds listed codes in whatever spelling, the most frequent first', () => {
  expect(found('p0741', 'P0300', '573-7')).toEqual(['SPN 573 FMI 7', 'P0741']);
});

it('takes a failure type or an FMI for the code without, unless it is listed itself', () => {
  expect(found('P0741-1A', 'SPN 573 FMI 7', 'SPN 573 FMI 9')).toEqual(['SPN 573 FMI 7', 'P0741-1A']);
});

it('leaves alone what is switched off, not listed or not to be spelled', () => {
  expect(found('P0742', 'SPN 574', '0741', '', 'P07410')).toEqual([]);
});

it('does not take a code without FMI for one with', () => {
  expect(
    findClutchCodes(new Map([['SPN 573 FMI 7', listed('x')]]), [
      { code: 'SPN 573', n: 1, first: at, last: at },
    ]),
  ).toEqual([]);
});

it('names a code with its meaning where it is listed, also where it is switched off', () => {
  expect(['p0742', 'spn573-7', 'P0300', 'odd one'].map((code) => nameCode(book, code))).toEqual([
    'P0742 (stuck on)',
    'SPN 573 FMI 7 (lockup engaged)',
    'P0300',
    'odd one',
  ]);
});
