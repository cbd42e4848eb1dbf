import type { FaultKind } from './wear.ts';

type Range = readonly [number, number];

/** Where in time a fault reaches the limit. */
type Fate =
  /** still running at the end, so many km before the limit (less than nothing: past it) */
  | { at: 'end'; kmToLimit: Range; begun: boolean }
  /** failed or changed at this share of the window */
  | { at: 'window'; share: Range; ended: 'failed' | 'preventive'; reported: boolean }
  /** past the limit before its first reading, which comes so many days before the end */
  | { at: 'arrival'; daysBeforeEnd: Range };

export interface FaultOrder {
  count: number;
  kind: FaultKind;
  /** km from the start of the fault to the limit, for a vehicle of middling use */
  spanKm: Range;
  fate: Fate;
  platform?: string;
}

export interface Scenario {
  name: string;
  seed: string;
  end: Date;
  months: number;
  vehicles: number;
  orders: readonly FaultOrder[];
  platformStep: { platform: string; daysBeforeEnd: number; rpm: number } | null;
  unregistered: number;
  imperial: number;
  quietGateways: number;
  odometerChanges: number;
  retired: number;
  /** shares of gateways of the kinds `speeds` and `plain`; the rest send everything */
  gatewayShares: { speeds: number; plain: number };
  disorder: Disorder;
}

export interface Disorder {
  glitchShare: number;
  duplicateShare: number;
  lateShare: number;
  refusedShare: number;
}
