import { decodeCodes } from '#server/engine/j1939/decode-codes.ts';
import { decodeVin } from '#server/engine/j1939/decode-vin.ts';
import { endSessions } from '#server/engine/j1939/end-sessions.ts';
import { groups, type SignalName, signals } from '#server/engine/j1939/signals.ts';
import { splitIdentifier } from '#server/engine/j1939/split-identifier.ts';
import { takeTransportFrame } from '#server/engine/j1939/take-transport-frame.ts';
import type { TransportLoss, TransportSessions } from '#server/engine/j1939/transport.ts';
import { createActiveCodes } from './active-codes.ts';
import { chooseSources, settleOn } from './choose-sources.ts';
import type { Draft } from './draft.ts';
import { createWindowFold } from './fold-windows.ts';
import { createHeldFrames } from './held-frames.ts';
import { createLeftOut } from './left-out.ts';
import type { Frame } from './parse-frame.ts';
import { countSignals, takeValue } from './read-signals.ts';
import { createLineScanner } from './scan-lines.ts';
import { newTrack, type SignalTrack } from './signal-track.ts';

/** A bus has some hundred; what claims more was not written by a bus. */
const MOST_IDENTIFIERS = 20_000;
const MOST_VINS = 100;

export interface GroupCount {
  pgn: number;
  source: number;
  frames: number;
}

type Part = 'other' | 'signals' | 'transport' | 'codes' | 'vin';

/** All that is known of an identifier on one interface. */
interface Owner {
  part: Part;
  bus: number;
  pgn: number;
  source: number;
  destination: number;
  tracks: SignalTrack[];
  count: GroupCount;
}

const parts: Partial<Record<number, Part>> = {
  [groups.transportControl]: 'transport',
  [groups.transportData]: 'transport',
  [groups.activeCodes]: 'codes',
  [groups.vehicleIdentification]: 'vin',
};
const byGroup = new Map<number, SignalName[]>();
for (const [name, { pgn }] of Object.entries(signals))
  byGroup.set(pgn, [...(byGroup.get(pgn) ?? []), name as SignalName]);

const losses: Record<TransportLoss, string> = {
  gap: 'messages of several packets of which one is missing',
  pause: 'messages of several packets that stopped for more than 750 ms',
  abort: 'messages of several packets that were broken off',
  size: 'messages of several packets of an impossible length',
  replaced: 'messages of several packets that began anew before they were whole',
  crowded: 'messages of several packets among too many at once',
};

/** Follows a log frame by frame: counts what is in it, and folds the signals of the chosen sources over windows. */
export function followLog(windowS: number) {
  const owners: Map<number, Owner>[] = [];
  const counts = new Map<number, GroupCount>();
  const tracks = new Map<string, SignalTrack>();
  let open = new Set<SignalName>();
  const vins = new Map<string, { vin: string; source: number }>();
  const codes = createActiveCodes();
  const leftOut = createLeftOut();
  const held = createHeldFrames<Owner>();
  const sessions: TransportSessions = new Map();
  let drafts: Draft[] = [];
  let identifiers = 0;
  let isChosen = false;
  let frames = 0;
  let firstUs = 0;
  let lastUs = 0;

  const fold = createWindowFold({
    windowUs: windowS * 1_000_000,
    codesWithin: codes.within,
    emit: (draft) => drafts.push(draft),
    onRestart(atUs) {
      codes.end(atUs);
      endTransport(atUs);
    },
  });

  const endTransport = (atUs: number): void => {
    const lost = endSessions(sessions, atUs);
    if (lost > 0) leftOut.add(losses.pause, 0, '', lost);
  };

  const trackOf = (name: SignalName, bus: number, source: number): SignalTrack => {
    const key = `${name} ${bus} ${source}`;
    const track = tracks.get(key) ?? newTrack(name, signals[name], bus, source);
    tracks.set(key, track);
    return track;
  };

  const addOwner = (frame: Frame): Owner => {
    const { pgn, source, destination } = splitIdentifier(frame.id);
    const key = pgn * 256 + source;
    const count = counts.get(key) ?? { pgn, source, frames: 0 };
    const own = byGroup.get(pgn) ?? [];
    const owner: Owner = {
      part: parts[pgn] ?? (own.length > 0 ? 'signals' : 'other'),
      bus: frame.bus,
      pgn,
      source,
      destination: destination ?? 0xff,
      tracks: own.map((name) => trackOf(name, frame.bus, source)),
      count,
    };
    if (identifiers >= MOST_IDENTIFIERS) return owner;
    identifiers += 1;
    counts.set(key, count);
    const known = owners[frame.bus] ?? new Map<number, Owner>();
    owners[frame.bus] = known;
    known.set(frame.id, owner);
    return owner;
  };

  const choose = (): void => {
    isChosen = true;
    open = chooseSources([...tracks.values()]);
    held.replay(takeFrame);
  };

  const takeCodes = (source: number, data: Uint8Array, atUs: number, line: number): void => {
    const { codes: named, otherLayout } = decodeCodes(data);
    if (otherLayout > 0)
      leftOut.add('trouble codes laid out by an older method', line, `from address ${source}`, otherLayout);
    codes.take(
      source,
      named.map(({ spn, fmi }) => `SPN ${spn} FMI ${fmi}`),
      atUs,
    );
  };

  const takeVin = (source: number, data: Uint8Array): void => {
    const vin = decodeVin(data);
    if (vin !== null && vins.size < MOST_VINS) vins.set(`${source} ${vin}`, { vin, source });
  };

  const takeMessage = (owner: Owner, pgn: number, data: Uint8Array, atUs: number, line: number): void => {
    if (pgn === groups.activeCodes) takeCodes(owner.source, data, atUs, line);
    else if (pgn === groups.vehicleIdentification) takeVin(owner.source, data);
  };

  /** A frame that readings may be made of, after the choice of sources. */
  const takeFrame = (
    owner: Owner,
    { line, atUs: frameUs, length, data }: Omit<Frame, 'id' | 'bus'>,
  ): void => {
    const atUs = fold.advance(frameUs, line);
    if (owner.part === 'signals') {
      for (const track of owner.tracks) {
        if (!track.isUsed && !open.has(track.name)) continue;
        const value = takeValue(track, data, length);
        if (Number.isNaN(value)) continue;
        if (!track.isUsed) settleOn(track, open);
        fold.set(track.name, value);
      }
      fold.settle(line);
    } else if (owner.part === 'transport') {
      const { pgn, bus, source, destination } = owner;
      const { message, lost } = takeTransportFrame(sessions, {
        pgn,
        bus,
        source,
        destination,
        data,
        length,
        atUs,
      });
      if (lost !== null) leftOut.add(losses[lost], line, `from address ${source}`);
      if (message !== null) takeMessage(owner, message.pgn, message.data, atUs, line);
    } else takeMessage(owner, owner.pgn, data.subarray(0, length), atUs, line);
  };

  const scanner = createLineScanner(
    {
      takeFrame(frame) {
        if (frames === 0) firstUs = frame.atUs;
        lastUs = frame.atUs;
        frames += 1;
        const owner = owners[frame.bus]?.get(frame.id) ?? addOwner(frame);
        owner.count.frames += 1;
        if (owner.part === 'other') return;
        if (owner.part === 'signals') countSignals(owner.tracks, frame.data, frame.length);
        if (isChosen) takeFrame(owner, frame);
        else if (held.add(frame, owner)) choose();
      },
      takeOther: leftOut.addLine,
    },
    leftOut.isFirst,
  );

  return {
    push: scanner.push,
    /** `whole`: the log was read to its end */
    end(whole: boolean): void {
      scanner.end(whole);
      if (!isChosen) choose();
      fold.end(whole);
      codes.end(lastUs);
      endTransport(lastUs);
    },
    /** what was folded since the last call */
    takeDrafts(): Draft[] {
      const taken = drafts;
      drafts = [];
      return taken;
    },
    vins: () => [...vins.values()],
    codes: codes.list,
    counts: () => [...counts.values()],
    leftOut: leftOut.list,
    tracks: () => [...tracks.values()],
    busNames: scanner.busNames,
    span: () => ({ lines: scanner.lines(), frames, firstUs, lastUs }),
    fold,
  };
}
export type FollowedLog = ReturnType<typeof followLog>;
