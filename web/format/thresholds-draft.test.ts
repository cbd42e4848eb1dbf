import { expect, it } from 'vitest';
import { usualThresholds as serverUsual } from '#server/contract/settings.ts';
import { readDraft, toDraft, usualThresholds, warnOf } from './thresholds-draft.ts';

it('knows the same usual thresholds as the server', () => {
  expect(usualThresholds).toEqual(serverUsual);
});

it('shows shares in percent, and reads back what it shows', () => {
  const own = { evidence_q: 0.07, hold_chance: 0.29, book_chance: 0.575, quiet_days: 45 };
  const draft = toDraft(own);
  expect(draft).toEqual({ evidence_q: '7', hold_chance: '29', book_chance: '57.5', quiet_days: '45' });
  expect(readDraft(draft)).toEqual({ value: own, faults: {} });
});

it('says at each field what is wrong with it', () => {
  const draft = { evidence_q: '0', hold_chance: '100', book_chance: '', quiet_days: '7' };
  expect(readDraft(draft)).toEqual({
    value: null,
    faults: {
      evidence_q: 'Not below 0.1 %.',
      hold_chance: 'Not above 99 %.',
      book_chance: 'A figure is needed.',
      quiet_days: 'Not below 14 days.',
    },
  });
});

it('warns where a vehicle is held before it is booked', () => {
  expect(warnOf({ ...usualThresholds, hold_chance: 0.05 })).toContain('held at a smaller chance');
  expect(warnOf({ ...usualThresholds, hold_chance: 0.06 })).toBe(null);
});
