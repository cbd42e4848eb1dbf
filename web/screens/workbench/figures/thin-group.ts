import type { LivesGroup } from '#server/contract/lives.ts';

/** More steps than this cannot be seen apart, and keep a browser busy for seconds. */
const mostSteps = 600;

/** A group with as many steps of its curves as can be drawn; failures between them are counted with the next. */
export function thinGroup(group: LivesGroup): LivesGroup {
  return {
    ...group,
    kaplan_meier: thin(group.kaplan_meier, (run, last) => ({
      ...last,
      events: run.reduce((sum, one) => sum + one.events, 0),
    })),
    nelson_aalen: thin(group.nelson_aalen),
    cumulative_incidence: group.cumulative_incidence.map((curve) => ({
      ...curve,
      points: thin(curve.points),
    })),
  };
}

/** The last of each run, so that every step stands where the curve is. */
function thin<One>(
  all: readonly One[],
  join: (run: readonly One[], last: One) => One = (_, last) => last,
): One[] {
  if (all.length <= mostSteps) return [...all];
  return Array.from({ length: mostSteps }, (_, i) => {
    const run = all.slice(
      Math.floor((i * all.length) / mostSteps),
      Math.floor(((i + 1) * all.length) / mostSteps),
    );
    const last = run.at(-1);
    return last === undefined ? [] : [join(run, last)];
  }).flat();
}
