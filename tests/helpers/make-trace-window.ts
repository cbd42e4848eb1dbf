import type { TraceWindow } from '#server/engine/road-trace/trace-model.ts';

/** Seconds of a warm cruise at 80 % command, changed as each says. */
export const makeTraceWindows = (
  count: number,
  change: (second: number) => Partial<TraceWindow> = () => ({}),
): TraceWindow[] =>
  Array.from({ length: count }, (_, second) => ({
    fromMs: second * 1000,
    toMs: (second + 1) * 1000,
    begins: second === 0,
    slipRpm: 12,
    dutyPct: 80,
    throttlePct: 25,
    speedKmh: 85,
    loadPct: 45,
    fluidC: 85,
    shifting: false,
    ...change(second),
  }));
