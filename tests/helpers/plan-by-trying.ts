import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';

/**
 * The best plan by trying every way to give each vehicle a gap or none: most on hold first, then the highest value.
 * Shares nothing with the model that it checks. With `extraDay`, a bay more stands on that day.
 */
export function planByTrying(
  { days, candidates }: DepotQuestion,
  extraDay: number | null = null,
): { holds: number; value: number } {
  const rooms = days.flatMap(({ gaps, extra }, day) =>
    [...gaps, ...(day === extraDay ? [extra] : [])].map((gap) => ({
      day,
      left: gap.toQuarter - gap.fromQuarter,
    })),
  );
  let best = { holds: -1, value: -Infinity };
  const tryFrom = (i: number, holds: number, value: number) => {
    const one = candidates[i];
    if (one === undefined) {
      if (holds > best.holds || (holds === best.holds && value > best.value)) best = { holds, value };
      return;
    }
    tryFrom(i + 1, holds, value);
    const tried = new Set<string>();
    for (const room of rooms) {
      const worth = one.values[room.day] ?? null;
      if (worth === null || room.left < one.quarters || tried.has(`${room.day} ${room.left}`)) continue;
      tried.add(`${room.day} ${room.left}`);
      room.left -= one.quarters;
      tryFrom(i + 1, holds + Number(one.hold), value + worth);
      room.left += one.quarters;
    }
  };
  tryFrom(0, 0, 0);
  return best;
}
