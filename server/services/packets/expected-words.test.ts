import { expect, it } from 'vitest';
import { expectedWords } from './expected-words.ts';
import type { JudgedPlatform } from './judged-by.ts';

const platform: JudgedPlatform = {
  limitRpm: 150,
  lowestDutyPct: 40,
  solenoid: { ohm: 5.5, supply_v: 24, wiring_ohm: 0.5, tolerance_pct: 25 },
  healthy: [{ dutyPct: 85, lowRpm: 4.2, usualRpm: 11, highRpm: 20.3 }],
};

it('shows the current to expect with its arithmetic', () => {
  expect(expectedWords('solenoid_current', platform)).toBe(
    'Expected change: 24 V / (5.5 + 0.5) ohm = 4.0 A, 3.0 to 5.0 A with 25 %.',
  );
});

it('says what is usual where the platform lacks its figures', () => {
  expect(expectedWords('solenoid_current', { ...platform, solenoid: null })).toContain('about 1 A is usual');
});

it('says what slip is healthy, or that it is not known', () => {
  expect(expectedWords('road_test', platform)).toBe(
    'At 85 % command 4 to 20 rpm are usual on healthy vehicles of this platform; the limit is 150 rpm.',
  );
  expect(expectedWords('road_test', { ...platform, healthy: [] })).toContain('not known yet');
});

it('expects no figure of fluid, pressure and pan', () => {
  for (const step of ['fluid', 'pressure', 'pan'] as const) expect(expectedWords(step, platform)).toBeNull();
});
