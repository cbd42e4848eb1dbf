import { expect, it } from 'vitest';
import { writeRoadTest } from '#demo-fleet/write-road-test.ts';
import { platformInput } from '#server/contract/fleet.ts';
import { judgeTrace } from '#server/services/packets/judge-trace.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';

const { gate, limitRpm } = toEngineSettings(null);
const solenoid = platformInput.parse({ id: 'x', name: 'x' }).solenoid;
const platform = { limitRpm, lowestDutyPct: 40, solenoid, gate, referenceDutyPct: 85, healthy: [] };
const judge = async (slipRpm: number) => {
  const bytes = Buffer.from(writeRoadTest({ seed: 'T-2001', slipRpm }));
  const judged = await judgeTrace({ name: 'drive.csv', bytes }, platform, false);
  if (judged.kind === 'asked') throw new Error(JSON.stringify(judged.questions));
  return judged;
};

it('finds the slip of a simulated road test at each of the three commands that were held', async () => {
  const { judgement, trace } = await judge(240);
  expect([judgement.result, judgement.verdict]).toEqual(['slips', 'failed']);
  const held = [55, 72, 86].map((duty) => trace.steady.find((one) => Math.abs(one.duty_pct - duty) < 1));
  // The simulation: 240 rpm at 85 %, and a sixtieth more for each percent below. Its slow wander has a spread of 3 %, of
  // which a stretch of 40 s sees about one independent draw in 10 s: 3 spreads of 3 % / sqrt(4) are under 5 %.
  const truth = [240 * 1.5, 240 * (1 + 13 / 60), 240];
  for (const [i, stretch] of held.entries())
    expect(Math.abs((stretch?.slip_rpm ?? 0) / (truth[i] ?? 1) - 1)).toBeLessThan(0.05);
  expect(trace.rows).toBe(2400);
});

it('finds that a clutch holds where the simulated slip is far below the limit', async () => {
  expect((await judge(30)).judgement.result).toBe('holds');
});
