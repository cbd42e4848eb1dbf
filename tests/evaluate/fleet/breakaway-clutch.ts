import { type Clutch, type ReferencePoint, shareLeft } from './clutch.ts';

/** Reference slip of a clutch that holds nothing, in limits: the fluid carries all. */
const FLUID_ONLY_LIMITS = 2.2;
/** Patches of the lining break away one after the other over this range of torque. */
const BREAKAWAY_WIDTH = 0.34;
const HEALTHY_CAPACITY = 2.3;

/**
 * Controlled micro-slip, and on top of it a progressive breakaway: where demand nears capacity, patches let go, and the
 * torque that they no longer hold goes through the fluid in proportion to slip.
 * slip = micro + s * w * ln(1 + exp((demand - capacity) / w)), s the slip per unit of torque through the fluid.
 */
export function createBreakawayClutch(reference: ReferencePoint, limitRpm: number): Clutch {
  const breakawayRpm = FLUID_ONLY_LIMITS * limitRpm * BREAKAWAY_WIDTH;
  const breakaway = (excess: number) =>
    breakawayRpm * Math.log1p(Math.exp(Math.min(excess / BREAKAWAY_WIDTH, 60)));
  const microRpm = (healthyRpm: number, capacity: number) => healthyRpm - breakaway(1 - capacity);

  return {
    reference,
    largestRpm: 2 * limitRpm,
    build(mode, healthyRpm, margin) {
      let capacity = HEALTHY_CAPACITY * margin;
      // Micro-slip is at least 40 % of healthy slip, or the healthy clutch would be half broken away.
      while (microRpm(healthyRpm, capacity) < 0.4 * healthyRpm) capacity += 0.1;
      return { mode, healthyRpm, capacity };
    },
    lossAt(converter, referenceRpm) {
      const over = referenceRpm - microRpm(converter.healthyRpm, converter.capacity);
      const excess = BREAKAWAY_WIDTH * Math.log(Math.expm1(over / breakawayRpm));
      return 1 - (1 - excess) / converter.capacity;
    },
    slip(converter, loss, dutyPct, loadPct, fluidC) {
      const hotter = fluidC - reference.fluidC;
      const demand = loadPct / reference.loadPct;
      const pressure = 0.45 + (0.55 * dutyPct) / reference.dutyPct;
      const friction = Math.exp(-0.004 * hotter);
      const left = shareLeft(converter.mode, loss, dutyPct, fluidC, reference);
      const micro =
        microRpm(converter.healthyRpm, converter.capacity) *
        (0.6 + 0.4 * demand) *
        Math.exp(0.004 * hotter - 0.004 * (dutyPct - reference.dutyPct));
      return micro + breakaway(demand - converter.capacity * pressure * friction * left);
    },
  };
}
