import { describe, expect, it } from 'vitest';
import { gateRules } from '#tests/helpers/engine-settings.ts';
import { makeTraceWindows } from '#tests/helpers/make-trace-window.ts';
import { findSteady } from './find-steady.ts';
import type { TraceWindow } from './trace-model.ts';

const find = (windows: readonly TraceWindow[]) => {
  const { stretches, setAside } = findSteady(windows, gateRules);
  return {
    stretches: stretches.map((run) => [(run[0]?.fromMs ?? 0) / 1000, (run.at(-1)?.toMs ?? 0) / 1000]),
    setAside: setAside.map(({ fromMs, toMs, reason }) => [fromMs / 1000, toMs / 1000, reason]),
  };
};

it('runs as its note says', () => {
  expect(findSteady([], gateRules).stretches).toEqual([]);
});

it('takes windows that pass the gate as one stretch', () => {
  expect(find(makeTraceWindows(30))).toEqual({ stretches: [[0, 30]], setAside: [] });
});

it('parts stretches by what the gate sets aside, with its reason', () => {
  const windows = makeTraceWindows(30, (second) => (second >= 10 && second < 14 ? { slipRpm: -60 } : {}));
  expect(find(windows)).toEqual({
    stretches: [
      [0, 10],
      [14, 30],
    ],
    setAside: [[10, 14, 'overrun']],
  });
});

it('asks the gate with the second before, so that a step of the command is seen', () => {
  const windows = makeTraceWindows(30, (second) => (second >= 10 ? { dutyPct: 60 } : {}));
  expect(find(windows)).toEqual({
    stretches: [
      [0, 10],
      [11, 30],
    ],
    setAside: [[10, 11, 'duty_moving']],
  });
});

describe('too short a stretch', () => {
  const of = (seconds: number) =>
    find(makeTraceWindows(20, (second) => (second >= seconds ? { dutyPct: 0 } : {})));
  it('is set aside below 5 s', () => {
    expect(of(4)).toEqual({
      stretches: [],
      setAside: [
        [0, 4, 'short'],
        [4, 20, 'not_commanded'],
      ],
    });
  });
  it('is one of 5 s no longer', () => {
    expect(of(5).stretches).toEqual([[0, 5]]);
  });
  it('is one of two windows, however long', () => {
    const windows = makeTraceWindows(2, (row) => ({ fromMs: row * 10_000, toMs: (row + 1) * 10_000 }));
    expect(find(windows).stretches).toEqual([]);
  });
});

it('ends a stretch at a gap', () => {
  const windows = makeTraceWindows(20, (second) =>
    second < 8 ? {} : { fromMs: (second + 60) * 1000, toMs: (second + 61) * 1000, begins: second === 8 },
  );
  expect(find(windows).stretches).toEqual([
    [0, 8],
    [68, 80],
  ]);
});

it('does not take a ramp of the command for steady, though no second moves by 5 points', () => {
  const windows = makeTraceWindows(15, (second) => ({ dutyPct: 42 + 4 * second }));
  expect(find(windows).stretches).toEqual([]);
});

it('begins anew where the throttle leaves, and asks nothing where it is not known', () => {
  const leaves = (throttlePct: number | null) =>
    find(makeTraceWindows(20, (second) => (second >= 10 ? { throttlePct } : {}))).stretches;
  expect(leaves(36)).toEqual([
    [0, 10],
    [10, 20],
  ]);
  expect(leaves(34)).toEqual([[0, 20]]);
  expect(leaves(null)).toEqual([[0, 20]]);
});

it('leaves no second untold', () => {
  const windows = makeTraceWindows(200, (second) => ({
    dutyPct: second % 23 < 9 ? 0 : 80,
    shifting: second % 17 === 0,
  }));
  const { stretches, setAside } = find(windows);
  const told = [...stretches, ...setAside].reduce((sum, [from, to]) => sum + Number(to) - Number(from), 0);
  expect(told).toBe(200);
});
