import { expect, it } from 'vitest';
import { sayRefusal } from './say-refusal.ts';

it('keeps settings for admins and platforms from the shop', () => {
  for (const role of ['planner', 'shop', 'analyst'] as const)
    expect(sayRefusal('/settings/people', role)).toMatch(/for admins/);
  expect(sayRefusal('/settings', 'admin')).toBeNull();
  expect(sayRefusal('/platforms', 'shop')).toMatch(/sent to it/);
  expect(sayRefusal('/platforms/morvelt', 'analyst')).toBeNull();
  expect(sayRefusal('/vehicles/settings', 'shop')).toBeNull();
  expect(sayRefusal('/digest', 'shop')).toMatch(/sent to it/);
  expect(sayRefusal('/digest', 'analyst')).toBeNull();
});

it('keeps the intake for planner and admin of all depots, but for files of what is theirs', () => {
  expect(sayRefusal('/intake/deliveries', 'analyst')).toMatch(/of all depots/);
  expect(sayRefusal('/intake/deliveries', 'planner', ['north'])).toMatch(/of all depots/);
  expect(sayRefusal('/intake/deliveries', 'planner', null)).toBeNull();
  expect(sayRefusal('/intake/set-up', 'planner', ['north'])).toBeNull();
  expect(sayRefusal('/intake/set-up', 'shop')).toMatch(/of all depots/);
});
