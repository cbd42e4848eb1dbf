import { expect, it } from 'vitest';
import { isCoolerDue } from './is-cooler-due.ts';

const nothing = { pan: null, cause: null, partKinds: [] };

it('runs as its note says', () => {
  expect(isCoolerDue({ ...nothing, pan: 'pan_lining' })).toEqual({
    due: true,
    because: 'pan_lining',
    advised: false,
  });
});

it.each(['lining_lost', 'piston_cracked', 'damper_broken', 'one_way_clutch'] as const)(
  'is due after %s, though the pan was clean',
  (cause) => {
    expect(isCoolerDue({ ...nothing, pan: 'pan_clean', cause })).toMatchObject({
      due: true,
      because: 'cause',
    });
  },
);

it('is due after metal in the pan, whatever the cause', () => {
  expect(isCoolerDue({ ...nothing, pan: 'pan_metal', cause: 'solenoid_failed' })).toMatchObject({
    due: true,
    because: 'pan_metal',
  });
});

it('is advised, not due, with a new converter for lining that was only worn', () => {
  expect(isCoolerDue({ pan: 'pan_fine', cause: 'lining_worn', partKinds: ['converter'] })).toEqual({
    due: false,
    because: null,
    advised: true,
  });
});

it('is neither where nothing inside was found or replaced', () => {
  expect(isCoolerDue({ pan: 'pan_clean', cause: 'wiring_fault', partKinds: ['wiring'] })).toEqual({
    due: false,
    because: null,
    advised: false,
  });
});
