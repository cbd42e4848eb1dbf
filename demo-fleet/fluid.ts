import type { PlatformBuild } from './platforms.ts';

/** Temperature at which heat in and cooler balance. */
export const steadyFluidC = (
  { fluid }: PlatformBuild,
  ambient: number,
  loadPct: number,
  heatKw: number,
): number => fluid.baseC + 0.38 * ambient + 0.22 * loadPct + heatKw / fluid.coolerKwPerK;

/** First-order approach to the steady temperature. */
export function advanceFluidC(
  platform: PlatformBuild,
  fromC: number,
  steadyC: number,
  minutes: number,
): number {
  return steadyC + (fromC - steadyC) * Math.exp(-minutes / platform.fluid.warmUpMinutes);
}
