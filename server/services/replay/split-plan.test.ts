import { expect, it } from 'vitest';
import { replayRequest } from '#server/contract/replay.ts';
import { splitPlan } from './make-plan.ts';
import type { ReplayPlan } from './replay-plan.ts';

const planOf = (sizes: number[]): ReplayPlan => ({
  fromMs: 0,
  dayEndMs: [],
  request: replayRequest.parse({ from: '2026-01-01', to: '2026-01-02' }),
  groups: sizes.map((size, g) => {
    const members = Array.from({ length: size }, (_, i) => 1_000 * g + i);
    return { platform: null, members, asked: members };
  }),
});
const sizesOf = (plan: ReplayPlan) => plan.groups.map(({ asked }) => asked.length);

it('gives both threads about the same, and every vehicle to one of them', () => {
  const plan = planOf([118, 69, 50, 3]);
  const parts = splitPlan(plan);
  expect(parts.map(sizesOf)).toEqual([
    [118, 3],
    [69, 50],
  ]);
});

it('halves a platform with most of the vehicles; both halves learn from all of them', () => {
  const [a, b] = splitPlan(planOf([100, 10]));
  expect([sizesOf(a), sizesOf(b)]).toEqual([[50, 10], [50]]);
  const asked = [...a.groups, ...b.groups].flatMap((group) => group.asked);
  expect(new Set(asked).size).toBe(110);
  expect([...a.groups, ...b.groups].map(({ members }) => members.length).sort()).toEqual([10, 100, 100]);
});
