import type { CommonWeek } from '#server/engine/platform/estimate-common-movement.ts';
import { weekOf } from '#server/engine/platform/week-of.ts';
import { runningMedian } from '#server/engine/smooth/running-median.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';

/** Slip of some stretches as measured, freed of what moved the whole platform. */
export interface MeasuredRises {
  atMs: number[];
  movementRpm: number[];
  slipRpm: number[];
  /** how far slip stands above the platform's usual level, smoothed, in 100 rpm from 0 to 3: what the effects depend on */
  rises: number[];
}

/** Half width of the running median that tells how far slip has risen, in stretches. */
const RISE_HALF = 4;
const MOST_RISE = 3;

/**
 * How far slip had risen at each stretch of one vehicle and band, under the conditions that it was driven in.
 *
 * rise = (running median over 9 stretches of (slip - common movement of its week) - usual) / 100, from 0 to 3.
 *
 * @param stretches in order of life and km
 * @param movement  common movement of the platform, by week; beyond the last week it stays, before the first it is 0
 * @param usualRpm  usual slip of a stretch on the platform, rpm
 * @returns one value for each stretch, units in the names
 * Source: own rule. Edges: none give none. Errors: none.
 * @example measureRises([], [], 15).rises // []
 */
export function measureRises(
  stretches: readonly StretchRow[],
  movement: readonly CommonWeek[],
  usualRpm: number,
): MeasuredRises {
  const byWeek = indexWeeks(movement);
  const last = movement.at(-1);
  const atMs: number[] = [];
  const movementRpm: number[] = [];
  const slipRpm: number[] = [];
  for (const row of stretches) {
    const ms = (row.firstAtMs + row.lastAtMs) / 2;
    const week = weekOf(ms);
    const moved = last !== undefined && week > last.week ? last.movementRpm : (byWeek.get(week) ?? 0);
    atMs.push(ms);
    movementRpm.push(moved);
    slipRpm.push(row.slipRpm - moved);
  }
  const rises = runningMedian(slipRpm, RISE_HALF);
  for (let i = 0; i < rises.length; i++)
    rises[i] = Math.min(MOST_RISE, Math.max(0, ((rises[i] ?? 0) - usualRpm) / 100));
  return { atMs, movementRpm, slipRpm, rises };
}

/** Of each movement once: every vehicle of a platform asks for the same ones. */
const indexed = new WeakMap<readonly CommonWeek[], ReadonlyMap<number, number>>();

function indexWeeks(movement: readonly CommonWeek[]): ReadonlyMap<number, number> {
  const known = indexed.get(movement);
  if (known !== undefined) return known;
  const byWeek = new Map(movement.map((week) => [week.week, week.movementRpm]));
  indexed.set(movement, byWeek);
  return byWeek;
}
