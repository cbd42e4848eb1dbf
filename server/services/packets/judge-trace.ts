import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Judgement, RoadTrace, StepQuestion } from '#server/contract/test-steps.ts';
import type { GateRules } from '#server/engine/gate/gate-reading.ts';
import { findSteady } from '#server/engine/road-trace/find-steady.ts';
import { judgeSteady } from '#server/engine/road-trace/judge-steady.ts';
import { measureSteady } from '#server/engine/road-trace/measure-steady.ts';
import { splitWindows } from '#server/engine/road-trace/split-windows.ts';
import { summariseWindow } from '#server/engine/road-trace/summarise-window.ts';
import type { SteadyStretch, TraceWindow } from '#server/engine/road-trace/trace-model.ts';
import { asideWords } from '#server/services/road-trace/aside-words.ts';
import { drawTrace } from '#server/services/road-trace/draw-trace.ts';
import { sayTraceJudgement } from '#server/services/road-trace/trace-judgement.ts';
import { askAboutTrace } from '#server/services/road-trace/trace-questions.ts';
import type { JudgedPlatform } from './judge-finding.ts';
import { readTrace } from './read-trace.ts';

export type TracePlatform = JudgedPlatform & { gate: GateRules; referenceDutyPct: number };

export type JudgedRoadTrace =
  | { kind: 'judged'; judgement: Judgement; trace: RoadTrace }
  | { kind: 'asked'; questions: StepQuestion[] };

/** At one go, ms; then others have their turn. */
const TURN_MS = 15;

/** Reads the CSV of a recorded road test and judges it, or asks about what may be a slip of the pen. */
export async function judgeTrace(
  file: { name: string; bytes: Uint8Array },
  platform: TracePlatform,
  asMeasured: boolean,
): Promise<JudgedRoadTrace> {
  const read = await readTrace(file.bytes);
  await nextTurn();
  const { stepMs, windows: rows, gaps } = splitWindows(read.samples.tMs);
  const questions = asMeasured ? [] : askAboutTrace(read, stepMs);
  if (questions.length > 0) return { kind: 'asked', questions };
  await nextTurn();
  const windows: TraceWindow[] = [];
  await inTurns(rows, (one) => windows.push(summariseWindow(read.samples, one)));
  const found = findSteady(windows, platform.gate);
  await nextTurn();
  const stretches: SteadyStretch[] = [];
  await inTurns(found.stretches, (one) => stretches.push(measureSteady(one)));

  const { limitRpm, healthy } = platform;
  const judged = judgeSteady(stretches, limitRpm, healthy);
  const judgement = sayTraceJudgement(judged, {
    limitRpm,
    hasHealthy: healthy.length > 0,
    mostAside: mostAsideOf(found.setAside),
  });
  const trace = drawTrace({ file, read, stepMs, gaps, setAside: found.setAside, stretches, platform });
  return { kind: 'judged', judgement, trace };
}

async function inTurns<T>(all: readonly T[], work: (one: T) => void): Promise<void> {
  let since = performance.now();
  for (const one of all) {
    work(one);
    if (performance.now() - since < TURN_MS) continue;
    await nextTurn();
    since = performance.now();
  }
}

function mostAsideOf(spans: ReturnType<typeof findSteady>['setAside']): string | null {
  const sums = new Map<(typeof spans)[number]['reason'], number>();
  for (const { reason, fromMs, toMs } of spans) sums.set(reason, (sums.get(reason) ?? 0) + toMs - fromMs);
  const [most] = [...sums].sort(([, a], [, b]) => b - a);
  return most === undefined ? null : asideWords(most[0]);
}
