import type { Signal, SignalName } from '#server/engine/j1939/signals.ts';

/** One signal as one address sends it on one interface. */
export interface SignalTrack {
  name: SignalName;
  signal: Signal;
  bus: number;
  source: number;
  valid: number;
  notAvailable: number;
  error: number;
  low: number;
  high: number;
  /** true where readings are made of it */
  isUsed: boolean;
}

export const newTrack = (name: SignalName, signal: Signal, bus: number, source: number): SignalTrack => ({
  name,
  signal,
  bus,
  source,
  valid: 0,
  notAvailable: 0,
  error: 0,
  low: Number.POSITIVE_INFINITY,
  high: Number.NEGATIVE_INFINITY,
  isUsed: false,
});
