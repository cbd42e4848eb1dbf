import { expect, it } from 'vitest';
import { sayLength, saySteady, sumAside } from './say-set-aside.ts';

const span = (from_s: number, to_s: number, says: string) => ({ from_s, to_s, reason: says, says });
const stretch = (from_s: number, to_s: number) => ({
  from_s,
  to_s,
  duty_pct: 78,
  slip_rpm: 12,
  slope_rpm_per_s: 0,
  fluid_c: 80,
});

it('sums what was set aside by reason, the most first', () => {
  const set_aside = [span(0, 5, 'shifting'), span(5, 30, 'overrun'), span(40, 43, 'shifting')];
  expect(sumAside({ set_aside })).toEqual([
    { says: 'overrun', seconds: 25 },
    { says: 'shifting', seconds: 8 },
  ]);
});

it('says how much was steady', () => {
  const seconds = [0, 60, 240];
  expect(saySteady({ seconds, steady: [stretch(10, 40), stretch(50, 80)] })).toBe(
    '60 s of 4 min (25\u00a0%) were steady lockup, in 2 stretches.',
  );
  expect(saySteady({ seconds, steady: [] })).toBe('None of 4 min was steady lockup.');
});

it('tells short times in seconds and long ones in minutes', () => {
  expect([0.4, 90, 150, 3600].map(sayLength)).toEqual(['1 s', '90 s', '3 min', '60 min']);
});
