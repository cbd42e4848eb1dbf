import { describe, expect, it } from 'vitest';
import { staysCalm } from './stays-calm.ts';

const facts = { nowKm: 101_000, levelRpm: 58, limitRpm: 150, hasNewCode: false };
const word = { untilKm: 105_000, slipRpm: 58 };

describe('staysCalm', () => {
  it('is calm up to the stated mileage and not beyond', () => {
    expect(staysCalm(facts, word)).toBe(true);
    expect(staysCalm({ ...facts, nowKm: 105_000 }, word)).toBe(false);
    expect(staysCalm({ ...facts, nowKm: null }, word)).toBe(false);
  });

  it('ends where slip rises by 10 rpm and a fifth of what it was', () => {
    // 58 rpm: a fifth is 11.6 rpm, more than 10.
    expect(staysCalm({ ...facts, levelRpm: 69.5 }, word)).toBe(true);
    expect(staysCalm({ ...facts, levelRpm: 69.7 }, word)).toBe(false);
    expect(staysCalm({ ...facts, levelRpm: 29.9 }, { ...word, slipRpm: 20 })).toBe(true);
    expect(staysCalm({ ...facts, levelRpm: 30 }, { ...word, slipRpm: 20 })).toBe(false);
  });

  it('ends where the limit is crossed since, and not where it was past before', () => {
    expect(staysCalm({ ...facts, levelRpm: 151 }, { ...word, slipRpm: 149 })).toBe(false);
    expect(staysCalm({ ...facts, levelRpm: 170 }, { ...word, slipRpm: 160 })).toBe(true);
    expect(staysCalm({ ...facts, levelRpm: 151 }, { ...word, slipRpm: null })).toBe(false);
  });

  it('ends with a new trouble code, whatever slip does', () => {
    expect(staysCalm({ ...facts, hasNewCode: true }, word)).toBe(false);
  });

  it('goes on where slip cannot be told', () => {
    expect(staysCalm({ ...facts, levelRpm: null }, word)).toBe(true);
  });
});
