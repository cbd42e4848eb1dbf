import type { ClutchState } from './clutch.ts';
import { Random } from './random.ts';

export type FaultKind =
  | 'none'
  | 'linear'
  | 'accelerating'
  | 'stepwise'
  | 'seal_leak'
  | 'valve_sticking'
  | 'solenoid'
  | 'sudden';

/** What a fault does from its start on. Lining wear shapes differ by what drives the glaze. */
export interface Fault {
  kind: FaultKind;
  startKm: number;
  /** a lining that glazes with distance: contaminated or aged fluid */
  glazePerKm: number;
  /** a lining that cannot stand its own heat */
  glazePerMj: number;
  standsMjPerKm: number;
  /** a lining that breaks up: pieces per km, and glaze per piece */
  piecesPerKm: number;
  glazePerPiece: number;
  leakPerKm: number;
  solenoidLossPerKm: number;
  valveLoss: number;
  broken: number;
  seed: string;
}

/** Every lining ages a little. */
export const AGEING_GLAZE_PER_KM = 3e-6;
export const AGEING_GLAZE_PER_MJ = 1.5e-5;

export interface Wear {
  state: ClutchState;
  advance(km: number, faultKm: number, heatMjPerKm: number, fluidC: number): void;
}

export function createWear(state: ClutchState, fault: Fault): Wear {
  const random = new Random(fault.seed);
  let untilPiece = random.exponential(1);
  const breakUp = (km: number, heatMjPerKm: number) => {
    untilPiece -= fault.piecesPerKm * km * (0.6 + 1.5 * heatMjPerKm);
    while (untilPiece < 0) {
      state.glaze += fault.glazePerPiece * random.between(0.5, 1.5);
      untilPiece += random.exponential(1);
    }
  };
  return {
    state,
    advance(km, faultKm, heatMjPerKm, fluidC) {
      state.glaze += km * (AGEING_GLAZE_PER_KM + AGEING_GLAZE_PER_MJ * heatMjPerKm);
      if (faultKm <= 0) return;
      state.glaze +=
        faultKm * (fault.glazePerKm + fault.glazePerMj * Math.max(0, heatMjPerKm - fault.standsMjPerKm));
      state.leak += faultKm * fault.leakPerKm * Math.exp((fluidC - 90) / 30);
      state.solenoidLoss = Math.min(0.8, state.solenoidLoss + faultKm * fault.solenoidLossPerKm);
      state.valveLoss = fault.valveLoss;
      state.broken = fault.broken;
      if (fault.piecesPerKm > 0) breakUp(faultKm, heatMjPerKm);
    },
  };
}
