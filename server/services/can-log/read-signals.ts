import { judgeRaw } from '#server/engine/j1939/judge-raw.ts';
import { readRaw } from '#server/engine/j1939/read-raw.ts';
import { scaleRaw } from '#server/engine/j1939/scale-raw.ts';
import type { SignalTrack } from './signal-track.ts';

/** No road vehicle has driven so far: FAFFFFFF of SPN 917 would be valid by its top byte. */
const MOST_ODOMETER_KM = 5_000_000;

/** Counts what a frame has of each signal. */
export function countSignals(tracks: readonly SignalTrack[], data: Uint8Array, length: number): void {
  for (const track of tracks) {
    const raw = readRaw(data, length, track.signal);
    if (raw < 0) continue;
    const kind = judgeRaw(raw, track.signal.bits);
    if (kind === 'valid') {
      const value = scaleRaw(raw, track.signal);
      if (isNonsense(track, value)) {
        track.error += 1;
        continue;
      }
      track.valid += 1;
      if (value < track.low) track.low = value;
      if (value > track.high) track.high = value;
    } else if (kind === 'error') track.error += 1;
    else track.notAvailable += 1;
  }
}

/** The value of a signal in a frame; NaN where it has none. */
export function takeValue(track: SignalTrack, data: Uint8Array, length: number): number {
  const raw = readRaw(data, length, track.signal);
  if (raw < 0 || judgeRaw(raw, track.signal.bits) !== 'valid') return Number.NaN;
  const value = scaleRaw(raw, track.signal);
  return isNonsense(track, value) ? Number.NaN : value;
}

const isNonsense = ({ name }: SignalTrack, value: number): boolean =>
  (name === 'distance' || name === 'preciseDistance') && value > MOST_ODOMETER_KM;
