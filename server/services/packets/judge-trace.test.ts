import { describe, expect, it } from 'vitest';
import { roadTrace } from '#server/contract/test-steps.ts';
import { gateRules } from '#tests/helpers/engine-settings.ts';
import { type RoadTestPlan, recordRoadTest, writeRoadTest } from '#tests/helpers/record-road-test.ts';
import { judgeTrace, type TracePlatform } from './judge-trace.ts';

const platform: TracePlatform = {
  limitRpm: 150,
  lowestDutyPct: 40,
  solenoid: null,
  healthy: [
    { dutyPct: 62.5, lowRpm: 4, usualRpm: 18, highRpm: 32 },
    { dutyPct: 77.5, lowRpm: 4, usualRpm: 14, highRpm: 26 },
    { dutyPct: 92.5, lowRpm: 2, usualRpm: 10, highRpm: 20 },
  ],
  gate: gateRules,
  referenceDutyPct: 85,
};
const judgeText = (text: string, of: Partial<TracePlatform> = {}, asMeasured = false) =>
  judgeTrace({ name: 'road.csv', bytes: Buffer.from(text) }, { ...platform, ...of }, asMeasured);
async function judge(plan: RoadTestPlan, of: Partial<TracePlatform> = {}) {
  const judged = await judgeText(writeRoadTest(recordRoadTest(plan)), of);
  if (judged.kind !== 'judged') throw new Error(judged.questions.map((one) => one.message).join());
  return judged;
}

describe('a recorded road test', () => {
  it.each([10, 20, 50, 100])('of a clutch that slips is told as such at %i rows a second', async (hz) => {
    const { judgement, trace } = await judge({ clutch: 'slips', hz });
    expect(judgement).toMatchObject({ result: 'slips', verdict: 'failed' });
    const most = Math.max(...trace.steady.map((one) => one.slip_rpm));
    expect(most).toBeGreaterThan(400);
    expect(judgement.words).toMatch(/^The clutch slips: \d+ rpm at 78 % command, held for \d+ s/);
  });

  it.each([10, 100])('of a sound clutch holds at %i rows a second', async (hz) => {
    const { judgement, trace } = await judge({ clutch: 'sound', hz });
    expect(judgement).toMatchObject({ result: 'holds', verdict: 'passed' });
    expect(judgement.words).not.toMatch(/safe|diagnos/i);
    for (const one of trace.steady) expect(one.slip_rpm).toBeLessThan(26);
  });

  it('of a weak clutch is raised, with the range of healthy vehicles there', async () => {
    const { judgement } = await judge({ clutch: 'weak' });
    expect(judgement).toMatchObject({ result: 'slip_raised', verdict: 'unclear' });
    expect(judgement.words).toContain('Healthy vehicles of this platform have 4 to 26 rpm there.');
  });

  it('of a weak clutch is under the limit where no healthy range is known, and says so', async () => {
    const { judgement } = await judge({ clutch: 'weak' }, { healthy: [] });
    expect(judgement.result).toBe('holds');
    expect(judgement.rule).toContain('judged by the limit alone');
  });

  it('that is over before 20 s of steady lockup is too little, and says what stood in the way', async () => {
    const { judgement } = await judge({ clutch: 'sound', seconds: 38 });
    expect(judgement).toMatchObject({ result: 'too_little_steady', verdict: 'unclear' });
    expect(judgement.words).toContain('lockup not commanded');
  });

  it('keeps overrun, shifts and gaps out of the steady stretches', async () => {
    const { trace } = await judge({ clutch: 'sound', lost: [[60, 72]] });
    const reasons = new Set(trace.set_aside.map(({ reason }) => reason));
    expect([...reasons]).toEqual(expect.arrayContaining(['not_commanded', 'gap']));
    expect(trace.gaps).toEqual([{ from_s: 59.9, to_s: 72 }]);
    expect(trace.told).toContain('One gap of 12 s without rows.');
    for (const { from_s, to_s } of trace.steady) {
      expect(from_s >= 72 || to_s <= 60.1).toBe(true);
      expect(to_s - from_s).toBeGreaterThanOrEqual(5);
    }
  });

  it('tells the slip of a stretch as its rows have it', async () => {
    const rows = recordRoadTest({ clutch: 'slips', hz: 50 });
    const { trace } = await judge({ clutch: 'slips', hz: 50 });
    for (const one of trace.steady) {
      const own = rows
        .filter(({ seconds }) => seconds >= one.from_s && seconds < one.to_s)
        .map(({ slipRpm }) => slipRpm)
        .sort((a, b) => a - b);
      // a median of medians of 50 rows with 2.5 rpm of noise over hills of some 100 rpm
      expect(Math.abs((own[own.length >> 1] ?? 0) - one.slip_rpm)).toBeLessThan(12);
    }
  });

  it('is kept as the contract has it, thinned, with a break at each gap', async () => {
    const { trace } = await judge({ clutch: 'sound', hz: 100, lost: [[40, 50]] });
    expect(roadTrace.parse(trace)).toEqual(trace);
    expect(trace.rows).toBe(17_000);
    expect(trace.seconds.length).toBeLessThanOrEqual(1200);
    expect(trace.seconds.length).toBe(trace.slip_rpm.length);
    const gap = trace.slip_rpm.indexOf(null);
    expect(trace.seconds[gap]).toBeGreaterThan(40);
    expect(trace.seconds[gap]).toBeLessThan(50);
    expect(trace.file).toEqual({
      name: 'road.csv',
      bytes: expect.any(Number),
      columns: expect.objectContaining({ time: 'time_s', slip: 'slip_rpm', duty: 'duty_pct' }),
    });
  });
});

describe('what may be a slip of the pen is asked, and stands once it was answered', () => {
  const header = 'time,throttle,speed_kmh,slip,duty,fluid';
  const rows = (row: (i: number) => string) =>
    [header, ...Array.from({ length: 60 }, (_, i) => row(i))].join('\n');
  it.each([
    ['signs', rows((i) => `${i / 2},20,80,-300,85,88`), 'slip', 'negative throughout'],
    ['a fraction', rows((i) => `${i / 2},20,80,12,0.85,88`), 'duty', 'fraction'],
    ['a fraction of throttle', rows((i) => `${i / 2},0.2,80,12,85,88`), 'throttle', 'fraction'],
    ['milliseconds', rows((i) => `${i * 100},20,80,12,85,88`), 'time', 'milliseconds'],
    ['degrees', rows((i) => `${i / 2},20,80,12,85,190`), 'fluid', '°F'],
  ])('%s', async (_, text, field, words) => {
    const asked = await judgeText(text);
    expect(asked.kind).toBe('asked');
    if (asked.kind !== 'asked') return;
    expect(asked.questions).toHaveLength(1);
    expect(asked.questions[0]?.field).toBe(field);
    expect(asked.questions[0]?.message).toContain(words);
    expect((await judgeText(text, {}, true)).kind).toBe('judged');
  });

  it('nothing is asked of what a name says', async () => {
    const seldom = rows((i) => `${i * 10},20,80,12,85,88`).replace('time', 'time_s');
    expect((await judgeText(seldom)).kind).toBe('judged');
  });
});

/** Processor time of this process, ms: other than the clock's it does not grow with what else the machine does. */
const usedMs = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** Watches how long others wait for their turn, at the longest. */
function watchTurns() {
  let [longestMs, before, isOver] = [0, usedMs(), false];
  const look = () => {
    const now = usedMs();
    longestMs = Math.max(longestMs, now - before);
    before = now;
    if (!isOver) setImmediate(look);
  };
  setImmediate(look);
  return () => {
    isOver = true;
    return longestMs;
  };
}

it('reads and judges an hour of 100 rows a second in under 4 s, and lets others have their turn', async () => {
  const bytes = Buffer.from(writeRoadTest(recordRoadTest({ clutch: 'weak', hz: 100, seconds: 3600 })));
  const before = usedMs();
  const longestTurn = watchTurns();
  const judged = await judgeTrace({ name: 'hour.csv', bytes }, platform, false);
  const longestMs = longestTurn();
  expect(judged).toMatchObject({ kind: 'judged', trace: { rows: 360_000 } });
  expect(usedMs() - before).toBeLessThan(4000);
  expect(longestMs).toBeLessThan(100);
}, 60_000);

it('would see work that lets nobody else have a turn', async () => {
  const longestTurn = watchTurns();
  await new Promise((resolve) => setImmediate(resolve));
  for (const end = usedMs() + 150; usedMs() < end; );
  await new Promise((resolve) => setTimeout(resolve, 5));
  expect(longestTurn()).toBeGreaterThan(100);
});
