import { expect, it } from 'vitest';
import type { Plan } from '#server/contract/plan.ts';
import { type Draft, settleDrafts } from './use-plan.ts';

const draft = (vehicle: string, ticked = true): Draft => ({
  vehicle,
  grade: 'book',
  platform: null,
  depot: 'mossgate',
  day: '2026-03-05',
  bay: 1,
  from: '07:00',
  to: '10:00',
  hours: 3,
  chance_before: 0.1,
  chance_by_end: 0.3,
  risk: 1_800,
  risk_before: 700,
  inspection_cost: 200,
  cost_avoided: 900,
  put_off: null,
  why: '',
  ticked,
  moved: false,
  refused: null,
});
const plan = { assignments: [] } as unknown as Plan;

it('keeps what was refused with its reason, and what was not sent', () => {
  const drafts = [draft('B-1'), draft('B-2'), draft('B-3', false)];
  const settled = settleDrafts(
    { plan, drafts, booked: 2 },
    { booked: ['B-1'], refused: [{ vehicle: 'B-2', message: 'is taken' }] },
  );
  expect(settled.booked).toBe(3);
  expect(settled.drafts.map(({ vehicle, ticked, refused }) => [vehicle, ticked, refused])).toEqual([
    ['B-2', false, 'is taken'],
    ['B-3', false, null],
  ]);
});
