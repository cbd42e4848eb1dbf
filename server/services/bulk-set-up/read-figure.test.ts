import { describe, expect, it } from 'vitest';
import { readFigure } from './read-figure.ts';

describe('a figure of a cell', () => {
  it.each([
    ['187000', ',', 187000],
    ['187.432', ',', 187.432],
    ['-15', ',', -15],
    ['1e3', ',', 1000],
    ['187 000', ',', 187000],
    ['1\u00a0187\u202f000.5', ',', 1187000.5],
    ['187,5', ';', 187.5],
    ['187.5', ';', 187.5],
    ['0,125', '\t', 0.125],
    [',5', ';', 0.5],
    ['187,4321', ';', 187.4321],
  ])('%j in a file with %j is %d', (cell, separator, value) => {
    expect(readFigure(cell, separator)).toEqual({ value });
  });

  it.each([
    ['187.000', ';', /write 187000, or 187.0000 where/],
    ['187,000', '\t', /write 187000, or 187,0000 where/],
    ['1.187.000', ',', /write 1187000$/],
    ['187,5', ',', /decimal point/],
    ['1,5,5', ';', /must be a number/],
    ['12 34', ';', /must be a number/],
    ['0x10', ',', /must be a number/],
    ['1e999', ',', /too large/],
    ['NaN', ',', /must be a number/],
  ])('%j in a file with %j is not guessed at', (cell, separator, fault) => {
    expect(readFigure(cell, separator)).toEqual({ fault: expect.stringMatching(fault) });
  });
});
