import { describe, expect, it } from 'vitest';
import { findGap, type Taken, type Wanted } from './find-gap.ts';

const at = (clock: string) => new Date(`2026-11-30T${clock}:00Z`);
const HOUR_MS = 3_600_000;
const wanted: Wanted = {
  bays: 2,
  opensAt: at('07:00'),
  closesAt: at('16:00'),
  notBefore: new Date(0),
  ms: 3 * HOUR_MS,
};
const taken = (bay: number, from: string, to: string): Taken => ({ bay, startsAt: at(from), endsAt: at(to) });
const find = (own: Taken[], changes: Partial<Wanted> = {}) => {
  const gap = findGap(own, { ...wanted, ...changes });
  return gap === null ? null : `${gap.bay} ${gap.startsAt.toISOString().slice(11, 16)}`;
};

describe('the first gap of a day', () => {
  it('is the lowest bay at opening where nothing is taken', () => {
    expect(find([])).toBe('1 07:00');
  });

  it('is another bay before it is a later time', () => {
    expect(find([taken(1, '07:00', '10:00')])).toBe('2 07:00');
  });

  it('is between two bookings where it is long enough, and else after them', () => {
    const own = [taken(1, '07:00', '08:00'), taken(1, '11:00', '12:30')];
    expect(find(own, { bay: 1 })).toBe('1 08:00');
    expect(find(own, { bay: 1, ms: 3.25 * HOUR_MS })).toBe('1 12:30');
    expect(find([taken(1, '11:00', '12:30'), taken(1, '07:00', '08:00')], { bay: 1 })).toBe('1 08:00');
  });

  it('is on the quarter of an hour, also after now and where the doors open at ten past', () => {
    expect(find([], { notBefore: at('09:01') })).toBe('1 09:15');
    expect(find([], { opensAt: at('07:10') })).toBe('1 07:15');
  });

  it('is not there where it would end after closing, or every bay is taken', () => {
    expect(find([], { notBefore: at('13:00') })).toBe('1 13:00');
    expect(find([], { notBefore: at('13:01') })).toBeNull();
    expect(find([], { ms: 9 * HOUR_MS })).toBe('1 07:00');
    expect(find([], { ms: 9.25 * HOUR_MS })).toBeNull();
    expect(find([taken(1, '09:00', '14:00'), taken(2, '08:00', '15:00')])).toBeNull();
  });
});

describe('a time that is asked for', () => {
  it('is had in the first bay that is free then, and in no other time', () => {
    expect(find([taken(1, '10:00', '11:00')], { startsAt: at('09:00') })).toBe('2 09:00');
    expect(find([taken(1, '10:00', '11:00')], { startsAt: at('11:00') })).toBe('1 11:00');
    expect(find([taken(1, '10:00', '11:00')], { startsAt: at('07:00') })).toBe('1 07:00');
    expect(find([taken(1, '10:00', '11:00')], { startsAt: at('09:00'), bay: 1 })).toBeNull();
  });

  it('is not had before opening, before now, after closing, or in a bay that is not there', () => {
    expect(find([], { startsAt: at('06:00') })).toBeNull();
    expect(find([], { startsAt: at('08:00'), notBefore: at('08:01') })).toBeNull();
    expect(find([], { startsAt: at('13:15') })).toBeNull();
    expect(find([], { startsAt: at('09:00'), bay: 3 })).toBeNull();
  });
});
