import type { RandomSource } from './random-source.ts';
import type { WearLawName } from './simulated-fleet.ts';

/** Reference slip of one converter as a function of true km. */
export interface WearLaw {
  name: WearLawName;
  onsetKm: number;
  /** Where the reference slip crosses the limit. */
  crossKm: number;
  slipAt(km: number): number;
}

export interface WearSpan {
  healthyRpm: number;
  limitRpm: number;
  largestRpm: number;
  onsetKm: number;
  crossKm: number;
}

const JUMP_KM = 250;

/** A wear law that starts at the onset and crosses the limit where it is told to. */
export function drawWearLaw(name: WearLawName, span: WearSpan, random: RandomSource): WearLaw {
  const { healthyRpm, limitRpm, largestRpm, onsetKm, crossKm } = span;
  const rise = drawRise(name, span, random);
  const slipAt = (km: number) => {
    if (km <= onsetKm) return healthyRpm;
    const way = (km - onsetKm) / (crossKm - onsetKm);
    return Math.min(largestRpm, healthyRpm + (limitRpm - healthyRpm) * rise(way));
  };
  return { name, onsetKm, crossKm, slipAt };
}

/** Share of the way from healthy slip to the limit, where `way` is 0 at the onset and 1 at the crossing. */
function drawRise(name: WearLawName, span: WearSpan, random: RandomSource): (way: number) => number {
  if (name === 'linear') return (way) => way;
  if (name === 'accelerating') {
    const growth = random.between(1.4, 3.6);
    const full = Math.expm1(growth);
    return (way) => Math.expm1(growth * way) / full;
  }
  if (name === 'power') {
    const exponent = random.between(1.3, 3);
    return (way) => way ** exponent;
  }
  return drawJumps(JUMP_KM / (span.crossKm - span.onsetKm), random);
}

/** 3 to 8 jumps with plateaus between; the last one crosses the limit, and some follow after it. */
function drawJumps(jumpWay: number, random: RandomSource): (way: number) => number {
  const count = random.whole(3, 8);
  const gaps = Array.from({ length: count - 1 }, () => 0.35 - Math.log(1 - random.uniform()));
  const sizes = Array.from({ length: count - 1 }, () => 0.4 - Math.log(1 - random.uniform()));
  const before = random.between(0.5, 0.93);
  const after = random.between(1.03, 1.3);
  const lastStart = 1 - jumpWay * ((1 - before) / (after - before));
  const starts = [0];
  const levels = [0];
  const gapSum = sum(gaps);
  const sizeSum = sum(sizes);
  gaps.forEach((gap, i) => {
    starts.push((starts[i] ?? 0) + (gap / gapSum) * lastStart);
    levels.push((levels[i] ?? 0) + ((sizes[i] ?? 0) / sizeSum) * before);
  });
  levels.push(after);
  for (let i = 1; i <= 3; i++) {
    starts.push(1 + 0.35 * i);
    levels.push(after + 0.3 * i);
  }
  return (way) => {
    let jump = 0;
    while (jump + 1 < starts.length && (starts[jump + 1] ?? 0) <= way) jump++;
    const from = levels[jump] ?? 0;
    const done = Math.min(1, (way - (starts[jump] ?? 0)) / jumpWay);
    return from + ((levels[jump + 1] ?? from) - from) * done;
  };
}

const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);

/** Kilometres from onset to limit: log-normal around 25,000, 8,000 to 80,000. */
export function drawSpanKm(random: RandomSource, atLeastKm = 8000, atMostKm = 80_000): number {
  for (let attempt = 0; attempt < 60; attempt++) {
    const km = 25_000 * Math.exp(0.6 * random.normal());
    if (km >= Math.max(8000, atLeastKm) && km <= Math.min(80_000, atMostKm)) return km;
  }
  return random.between(Math.max(8000, atLeastKm), Math.max(8000, atLeastKm, Math.min(80_000, atMostKm)));
}
