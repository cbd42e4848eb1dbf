import { describe, expect, it } from 'vitest';
import { endSessions } from './end-sessions.ts';
import { takeTransportFrame } from './take-transport-frame.ts';
import type { TransportAnswer, TransportSessions } from './transport.ts';

const CONTROL = 60_416;
const DATA = 60_160;
const DM1 = [0xca, 0xfe, 0x00];

/** A bus on which each of `say` is heard 50 ms after the one before, unless told otherwise. */
function listen() {
  const sessions: TransportSessions = new Map();
  let atUs = 0;
  const say = (
    pgn: number,
    bytes: number[],
    { bus = 0, from = 3, to = 255, afterMs = 50, length = bytes.length } = {},
  ): TransportAnswer => {
    atUs += afterMs * 1000;
    const data = Uint8Array.from(bytes);
    return takeTransportFrame(sessions, { pgn, bus, source: from, destination: to, data, length, atUs });
  };
  return { say, sessions, end: (afterMs: number) => endSessions(sessions, atUs + afterMs * 1000) };
}

const announce = (bytes: number, packets: number): number[] => [
  0x20,
  bytes % 256,
  bytes >> 8,
  packets,
  255,
  ...DM1,
];
const packet = (sequence: number, first: number): number[] => [
  sequence,
  ...Array.from({ length: 7 }, (_, i) => first + i),
];
const nothing = { message: null, lost: null };
const counted = (length: number) => Uint8Array.from({ length }, (_, i) => i + 1);

describe('a message of several packets', () => {
  it('is whole with its last packet, without the padding', () => {
    const { say, sessions } = listen();
    expect(say(CONTROL, announce(10, 2))).toEqual(nothing);
    expect(say(DATA, packet(1, 1))).toEqual(nothing);
    expect(say(DATA, [2, 8, 9, 10, 255, 255, 255, 255])).toEqual({
      message: { pgn: 65_226, data: counted(10) },
      lost: null,
    });
    expect(sessions.size).toBe(0);
  });

  it('may have 1,785 bytes in 255 packets and no more', () => {
    const { say } = listen();
    say(CONTROL, announce(1785, 255));
    for (let i = 1; i < 255; i++) expect(say(DATA, packet(i, 0)).lost).toBeNull();
    expect(say(DATA, packet(255, 0)).message?.data).toHaveLength(1785);
    expect(say(CONTROL, announce(1786, 255)).lost).toBe('size');
  });

  it.each([
    [8, 2],
    [10, 3],
    [10, 1],
    [0, 0],
  ])('is none where %i bytes are announced in %i packets', (bytes, packets) => {
    const { say } = listen();
    expect(say(CONTROL, announce(bytes, packets)).lost).toBe('size');
    expect(say(DATA, packet(1, 1))).toEqual(nothing);
  });

  it('of two sources, and of one source on two buses, does not mix', () => {
    const { say } = listen();
    say(CONTROL, announce(9, 2), { from: 3 });
    say(CONTROL, announce(9, 2), { from: 0 });
    say(CONTROL, announce(9, 2), { from: 3, bus: 1 });
    say(DATA, packet(1, 30), { from: 3 });
    say(DATA, packet(1, 50), { from: 0 });
    say(DATA, packet(1, 70), { from: 3, bus: 1 });
    const ends = (first: number) => [2, first + 7, first + 8, 255, 255, 255, 255, 255];
    const from = (first: number) => Uint8Array.from({ length: 9 }, (_, i) => first + i);
    expect(say(DATA, ends(50), { from: 0 }).message?.data).toEqual(from(50));
    expect(say(DATA, ends(70), { from: 3, bus: 1 }).message?.data).toEqual(from(70));
    expect(say(DATA, ends(30), { from: 3 }).message?.data).toEqual(from(30));
  });

  it('to everybody and one to somebody from the same source do not mix', () => {
    const { say } = listen();
    say(CONTROL, announce(9, 2));
    say(CONTROL, [0x10, 9, 0, 2, 2, ...DM1], { to: 0 });
    say(DATA, packet(1, 1));
    say(DATA, packet(1, 50), { to: 0 });
    expect(say(DATA, packet(2, 8)).message?.data).toEqual(counted(9));
    expect(say(DATA, packet(2, 57), { to: 0 }).message?.data[0]).toBe(50);
  });

  it('is lost by a packet that is missing, and what follows is not taken for another', () => {
    const { say } = listen();
    say(CONTROL, announce(21, 3));
    say(DATA, packet(1, 1));
    expect(say(DATA, packet(3, 15)).lost).toBe('gap');
    expect(say(DATA, packet(2, 8))).toEqual(nothing);
  });

  it('takes a packet that comes twice once', () => {
    const { say } = listen();
    say(CONTROL, announce(9, 2));
    say(DATA, packet(1, 1));
    expect(say(DATA, packet(1, 1))).toEqual(nothing);
    expect(say(DATA, packet(2, 8)).message?.data).toEqual(counted(9));
  });

  it('bears a pause of 750 ms and not more', () => {
    const { say } = listen();
    say(CONTROL, announce(16, 3));
    expect(say(DATA, packet(1, 1), { afterMs: 750 }).lost).toBeNull();
    expect(say(DATA, packet(2, 8), { afterMs: 750.001 }).lost).toBe('pause');
    expect(say(DATA, packet(3, 15))).toEqual(nothing);
  });

  it('is lost where another begins before it is whole', () => {
    const { say } = listen();
    say(CONTROL, announce(16, 3));
    say(DATA, packet(1, 101));
    expect(say(CONTROL, announce(9, 2)).lost).toBe('replaced');
    say(DATA, packet(1, 1));
    expect(say(DATA, packet(2, 8)).message?.data).toEqual(counted(9));
  });

  it.each(['sender', 'receiver'])('is lost where the %s breaks it off', (who) => {
    const { say } = listen();
    say(CONTROL, [0x10, 16, 0, 3, 3, ...DM1], { from: 3, to: 0 });
    const abort = [0xff, 3, 255, 255, 255, ...DM1];
    const sides = who === 'sender' ? { from: 3, to: 0 } : { from: 0, to: 3 };
    expect(say(CONTROL, abort, sides).lost).toBe('abort');
    expect(say(DATA, packet(1, 1), { from: 3, to: 0 })).toEqual(nothing);
    expect(say(CONTROL, abort, sides)).toEqual(nothing);
  });

  it('is lost where a packet is too short for what it should carry', () => {
    const { say } = listen();
    say(CONTROL, announce(9, 2));
    expect(say(DATA, packet(1, 1), { length: 7 }).lost).toBe('size');
    say(CONTROL, announce(9, 2));
    say(DATA, packet(1, 1));
    expect(say(DATA, [2, 8, 9]).message?.data).toEqual(counted(9));
  });

  it('to one address goes on as the receiver asks, from an earlier packet too', () => {
    const { say } = listen();
    const back = { from: 0, to: 3 };
    const there = { from: 3, to: 0 };
    say(CONTROL, [0x10, 16, 0, 3, 2, ...DM1], there);
    say(CONTROL, [0x11, 2, 1, 255, 255, ...DM1], back);
    say(DATA, packet(1, 1), there);
    say(DATA, packet(2, 99), there);
    // asks for the second once more; then lets it wait, which keeps the session
    say(CONTROL, [0x11, 2, 2, 255, 255, ...DM1], { ...back, afterMs: 700 });
    say(CONTROL, [0x11, 0, 255, 255, 255, ...DM1], { ...back, afterMs: 700 });
    say(DATA, packet(2, 8), { ...there, afterMs: 700 });
    expect(say(DATA, packet(3, 15), there).message?.data).toEqual(counted(16));
    expect(say(CONTROL, [0x13, 16, 0, 3, 255, ...DM1], back)).toEqual(nothing);
  });

  it('to one address is lost where the receiver has what the log has not', () => {
    const { say } = listen();
    say(CONTROL, [0x10, 16, 0, 3, 2, ...DM1], { to: 0 });
    say(DATA, packet(1, 1), { to: 0 });
    expect(say(CONTROL, [0x11, 1, 3, 255, 255, ...DM1], { from: 0, to: 3 }).lost).toBe('gap');
    say(CONTROL, [0x10, 16, 0, 3, 2, ...DM1], { to: 0 });
    expect(say(CONTROL, [0x13, 16, 0, 3, 255, ...DM1], { from: 0, to: 3 }).lost).toBe('gap');
  });

  it('leaves out what it cannot place', () => {
    const { say, sessions } = listen();
    expect(say(DATA, packet(1, 1))).toEqual(nothing);
    expect(say(CONTROL, [0x20, 9, 0], {})).toEqual(nothing);
    expect(say(CONTROL, [0x42, 9, 0, 2, 255, ...DM1])).toEqual(nothing);
    expect(say(CONTROL, [0x11, 1, 1, 255, 255, ...DM1])).toEqual(nothing);
    expect(sessions.size).toBe(0);
  });

  it('holds so many open and no more: the oldest is lost', () => {
    const { say, sessions } = listen();
    for (let i = 0; i < 1024; i++) say(CONTROL, announce(9, 2), { from: i % 256, bus: i >> 8, afterMs: 0 });
    expect(say(CONTROL, announce(9, 2), { bus: 9, afterMs: 0 }).lost).toBe('crowded');
    expect(sessions.size).toBe(1024);
  });
});

it('counts at the end those that had waited too long', () => {
  const early = listen();
  early.say(CONTROL, announce(9, 2));
  expect(early.end(750)).toBe(0);
  expect(early.sessions.size).toBe(0);
  const late = listen();
  late.say(CONTROL, announce(9, 2));
  expect(late.end(751)).toBe(1);
});
