import type { CanSummary } from '#server/contract/looks.ts';
import { judgeVin } from '#server/contract/vin.ts';
import { groupNames, type SignalName, signals } from '#server/engine/j1939/signals.ts';
import { findBestTrack } from './choose-sources.ts';
import type { FollowedLog } from './follow-log.ts';
import type { SignalTrack } from './signal-track.ts';
import { CLOCK_KNOWN_US } from './to-reading.ts';

const GROUPS_SHOWN = 200;

/** What was in a log, whether readings were made of it or not. */
export function summariseLog(log: FollowedLog): CanSummary {
  const { lines, frames, firstUs, lastUs } = log.span();
  const busNames = log.busNames();
  const tracks = log.tracks();
  const { made, without } = log.fold;
  return {
    lines,
    frames,
    first_s: frames === 0 ? null : firstUs / 1_000_000,
    last_s: frames === 0 ? null : lastUs / 1_000_000,
    clock: frames === 0 ? null : firstUs >= CLOCK_KNOWN_US ? 'since_1970' : 'from_start',
    groups: log
      .counts()
      .sort((a, b) => b.frames - a.frames || a.pgn - b.pgn || a.source - b.source)
      .slice(0, GROUPS_SHOWN)
      .map(({ pgn, source, frames: n }) => ({ pgn, source, name: groupNames[pgn] ?? null, frames: n })),
    signals: (Object.keys(signals) as SignalName[]).map((name) =>
      summariseSignal(
        name,
        tracks.filter((track) => track.name === name),
        busNames,
      ),
    ),
    vins: log.vins().map(({ vin, source }) => ({ vin, source, warning: judgeVin(vin).warning })),
    codes: log.codes().sort((a, b) => b.seconds - a.seconds),
    left_out: log.leftOut(),
    windows: {
      steady_lockup: made.steady,
      not: made.open + made.shifting,
      without: without.tooShort + without.noState + without.noSpeeds,
    },
  };
}

/** The counts are those of the address that is read; where none is, those of all together. */
function summariseSignal(
  name: SignalName,
  tracks: readonly SignalTrack[],
  busNames: readonly string[],
): CanSummary['signals'][number] {
  const { name: words, spn, pgn, unit } = signals[name];
  const used = tracks.find(({ isUsed }) => isUsed) ?? findBestTrack(tracks);
  const counted = used === null ? tracks : [used];
  const sum = (of: (track: SignalTrack) => number) => counted.reduce((total, track) => total + of(track), 0);
  const isNumber = used !== null && used.valid > 0;
  return {
    name: words,
    spn,
    pgn,
    source: used?.source ?? null,
    bus: used === null ? null : (busNames[used.bus] ?? null),
    sources: [...new Set(tracks.map(({ source }) => source))].sort((a, b) => a - b),
    valid: sum(({ valid }) => valid),
    not_available: sum(({ notAvailable }) => notAvailable),
    error: sum(({ error }) => error),
    low: isNumber ? round(used.low) : null,
    high: isNumber ? round(used.high) : null,
    unit,
  };
}

const round = (value: number): number => Math.round(value * 1000) / 1000;
