import type { LivesGroup } from '#server/contract/lives.ts';
import { type Step, stepAt } from './steps.ts';

/** Survival as steps from mileage 0 on; bounds that cannot be had go on as they were. */
export function survivalSteps({ kaplan_meier: points }: LivesGroup): Step[] {
  const steps: Step[] = [{ x: 0, value: 1, low: 1, high: 1 }];
  for (const { x, survival, low, high } of points) {
    const before = steps.at(-1);
    steps.push({ x, value: survival, low: low ?? 0, high: high ?? before?.high ?? 1 });
  }
  return steps;
}

/** Where the last life of a group was seen. */
export const lastSeen = ({ at_risk, kaplan_meier }: LivesGroup): number =>
  Math.max(at_risk.at(-1)?.x ?? 0, kaplan_meier.at(-1)?.x ?? 0);

/** The most lives that are under watch at once between two places. */
export function mostAtRisk({ at_risk }: LivesGroup, from: number, to: number): number {
  const before = stepAt(at_risk, from)?.n ?? 0;
  return at_risk.reduce(
    (most, step) => (step.x > from && step.x < to ? Math.max(most, step.n) : most),
    before,
  );
}

/** Lives whose failure at x would be seen: entry < x <= exit. */
export function countAtRisk({ at_risk }: LivesGroup, x: number): number {
  const exactly = at_risk.findIndex((step) => step.x === x);
  return (exactly >= 0 ? at_risk[exactly - 1] : stepAt(at_risk, x))?.n ?? 0;
}
