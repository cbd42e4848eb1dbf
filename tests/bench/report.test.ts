import { describe, expect, it } from 'vitest';
import { toLine } from './report.ts';

const told = (figure: Parameters<typeof toLine>[0]) => JSON.parse(toLine(figure));
const base = { figure: 'rows', value: 30_000.4, unit: 'rows/s' };

describe('a line of the bench', () => {
  it('has the ratio to its reference, and whether that is enough', () => {
    const reference = { what: 'COPY', value: 40_000 };
    expect(told({ ...base, reference, wanted: { ratio_at_least: 0.7 } })).toEqual({
      ...base,
      value: 30_000,
      reference,
      ratio: 0.75,
      wanted: { ratio_at_least: 0.7 },
      met: true,
    });
    expect(told({ ...base, reference, wanted: { ratio_at_least: 0.76 } }).met).toBe(false);
  });
  it('takes the ratio of what was measured in turn where there is one', () => {
    expect(told({ ...base, reference: { what: 'COPY', value: 40_000 }, ratio: 0.8 }).ratio).toBe(0.8);
  });
  it('judges what has no reference by itself, and a missing ratio as not met', () => {
    expect(told({ ...base, wanted: { at_most: 30_000 } }).met).toBe(false);
    expect(told({ ...base, wanted: { at_least: 30_000 } }).met).toBe(true);
    expect(told({ ...base, wanted: { ratio_at_least: 0.1 } }).met).toBe(false);
    expect(told(base)).toEqual({ ...base, value: 30_000 });
  });
});
