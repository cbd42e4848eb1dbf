import { type ClutchState, freshState, referenceSlipRpm } from './clutch.ts';
import { measureDay, type TypicalPoint } from './duty-cycle.ts';
import type { ClutchBuild, PlatformBuild } from './platforms.ts';
import { Random } from './random.ts';
import type { Fault, FaultKind } from './wear.ts';

/** Pieces that a lining loses on its way to the limit. */
const PIECES = 10;

const harmless: Omit<Fault, 'seed'> = {
  kind: 'none',
  startKm: Number.POSITIVE_INFINITY,
  glazePerKm: 0,
  glazePerMj: 0,
  standsMjPerKm: 0,
  piecesPerKm: 0,
  glazePerPiece: 0,
  leakPerKm: 0,
  solenoidLossPerKm: 0,
  valveLoss: 0,
  broken: 0,
};

export const noFault = (seed: string): Fault => ({ ...harmless, seed });

/** Level of one kind of damage at which a clutch slips as much as asked at the reference point. */
export function damageAtSlip(
  platform: PlatformBuild,
  build: ClutchBuild,
  slipRpm: number,
  damage: (state: ClutchState, level: number) => void,
  highest: number,
): number {
  let low = 0;
  let high = highest;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    const state = freshState();
    damage(state, middle);
    if (referenceSlipRpm(platform, build, state) < slipRpm) low = middle;
    else high = middle;
  }
  return high;
}

/** A fault of this kind that takes about `spanKm` from its start to the limit. */
export function createFault(
  kind: FaultKind,
  spanKm: number,
  platform: PlatformBuild,
  build: ClutchBuild,
  points: readonly TypicalPoint[],
  seed: string,
): Fault {
  const fault = noFault(seed);
  fault.kind = kind;
  const limit = platform.limitRpm;
  const glazeAtLimit = () =>
    damageAtSlip(platform, build, limit, (state, level) => Object.assign(state, { glaze: level }), 1000);
  switch (kind) {
    case 'linear':
      fault.glazePerKm = (0.75 * glazeAtLimit()) / spanKm;
      Object.assign(fault, heatGlaze(platform, build, points, 0.25 * glazeAtLimit(), spanKm));
      break;
    case 'accelerating':
      Object.assign(fault, heatGlaze(platform, build, points, glazeAtLimit(), spanKm));
      break;
    case 'stepwise':
      fault.piecesPerKm = PIECES / spanKm;
      fault.glazePerPiece = glazeAtLimit() / PIECES;
      break;
    case 'seal_leak':
      fault.leakPerKm =
        damageAtSlip(platform, build, limit, (state, level) => Object.assign(state, { leak: level }), 40) /
        spanKm;
      break;
    case 'solenoid':
      fault.solenoidLossPerKm =
        damageAtSlip(
          platform,
          build,
          limit,
          (state, level) => Object.assign(state, { solenoidLoss: level }),
          0.9,
        ) / spanKm;
      break;
    case 'valve_sticking': {
      const level = new Random(`${seed}|valve`).between(0.3, 0.62) * limit;
      fault.valveLoss = damageAtSlip(
        platform,
        build,
        level,
        (state, loss) => Object.assign(state, { valveLoss: loss }),
        0.95,
      );
      break;
    }
    case 'sudden':
      fault.broken = 1;
      break;
    case 'none':
      break;
  }
  return fault;
}

/**
 * Glaze by heat above what the lining stands. Its rate reaches `glazeAtLimit` in `spanKm`: the integral of
 * d(glaze) / heat(glaze) over that distance.
 */
function heatGlaze(
  platform: PlatformBuild,
  build: ClutchBuild,
  points: readonly TypicalPoint[],
  glazeAtLimit: number,
  spanKm: number,
): Pick<Fault, 'glazePerMj' | 'standsMjPerKm'> {
  const steps = 60;
  const state = freshState();
  const heat = () => measureDay(platform, build, state, points, 15).heatMjPerKm;
  const standsMjPerKm = 0.7 * heat();
  let integral = 0;
  for (let i = 0; i < steps; i++) {
    state.glaze = ((i + 0.5) * glazeAtLimit) / steps;
    integral += glazeAtLimit / steps / (heat() - standsMjPerKm);
  }
  return { glazePerMj: integral / spanKm, standsMjPerKm };
}
