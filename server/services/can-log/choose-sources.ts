import {
  ENGINE_ADDRESS,
  groups,
  type SignalName,
  signals,
  TRANSMISSION_ADDRESS,
} from '#server/engine/j1939/signals.ts';
import type { SignalTrack } from './signal-track.ts';

/** Who sends a group in every vehicle; other groups come from whoever fills them. */
const expectedSource: Partial<Record<number, number>> = {
  [groups.electronicTransmission1]: TRANSMISSION_ADDRESS,
  [groups.electronicTransmission2]: TRANSMISSION_ADDRESS,
  [groups.transmissionFluids]: TRANSMISSION_ADDRESS,
  [groups.electronicEngine1]: ENGINE_ADDRESS,
  [groups.electronicEngine2]: ENGINE_ADDRESS,
};
/**
 * Two that send alike are a few values apart in any log: the lower address is taken, so that one log of a vehicle does not
 * follow another instrument than the next.
 */
const ALIKE = 0.8;

const odometers: readonly SignalName[] = ['preciseDistance', 'distance'];
const isOdometer = ({ name }: SignalTrack): boolean => odometers.includes(name);
/** What is asked about first wins over what can stand for it. */
const names = [
  ...odometers,
  ...(Object.keys(signals) as SignalName[]).filter((name) => !odometers.includes(name)),
];

/**
 * Chooses, once for a log, from which address and interface each signal is read: never whatever came last. Answers the
 * signals that had no valid value so far: whoever brings the first is taken.
 */
export function chooseSources(tracks: readonly SignalTrack[]): Set<SignalName> {
  const open = new Set(names);
  for (const name of names) {
    const best = open.has(name) ? findBestTrack(tracks.filter((track) => track.name === name)) : null;
    if (best !== null) settleOn(best, open);
  }
  return open;
}

/** One of the two odometers is enough; the better one is asked about first. */
export function settleOn(track: SignalTrack, open: Set<SignalName>): void {
  track.isUsed = true;
  for (const name of isOdometer(track) ? odometers : [track.name]) open.delete(name);
}

/** The track of one signal that readings are to be made of; null where none was ever valid. */
export function findBestTrack(tracks: readonly SignalTrack[]): SignalTrack | null {
  const filled = tracks.filter(isFilled);
  const expected = filled.filter(({ signal, source }) => expectedSource[signal.pgn] === source);
  const candidates = expected.length > 0 ? expected : filled;
  const most = Math.max(0, ...candidates.map(({ valid }) => valid));
  const [best] = candidates
    .filter(({ valid }) => valid >= most * ALIKE)
    .sort((a, b) => a.source - b.source || a.bus - b.bus);
  return best ?? null;
}

/** An odometer that stands at 0 is none. */
const isFilled = (track: SignalTrack): boolean => track.valid > 0 && (!isOdometer(track) || track.high > 0);
