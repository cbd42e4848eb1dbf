import type { Frame } from './parse-frame.ts';

/** So much of a log decides from whom each signal is read. */
const HELD_US = 30_000_000;
const MOST_HELD = 100_000;

/** The frames of the first part of a log, with whatever belongs to their identifier, to be gone through once more. */
export function createHeldFrames<Owner>() {
  let owners: Owner[] = [];
  let lines: number[] = [];
  let timesUs: number[] = [];
  let lengths: number[] = [];
  let data = Buffer.alloc(8 * 1024);

  return {
    /** Answers whether that was enough. */
    add(frame: Frame, owner: Owner): boolean {
      const at = owners.length * 8;
      if (at === data.length) data = Buffer.concat([data, Buffer.alloc(data.length)]);
      data.set(frame.data, at);
      owners.push(owner);
      lines.push(frame.line);
      timesUs.push(frame.atUs);
      lengths.push(frame.length);
      const passedUs = Math.abs(frame.atUs - (timesUs[0] ?? 0));
      return passedUs > HELD_US || owners.length >= MOST_HELD;
    },
    /** Hands each on, in the order in which they came, and holds none of them any more. */
    replay(take: (owner: Owner, frame: Omit<Frame, 'id' | 'bus'>) => void): void {
      for (const [i, owner] of owners.entries())
        take(owner, {
          line: lines[i] ?? 0,
          atUs: timesUs[i] ?? 0,
          length: lengths[i] ?? 0,
          data: data.subarray(i * 8, i * 8 + 8),
        });
      owners = [];
      lines = [];
      timesUs = [];
      lengths = [];
      data = Buffer.alloc(0);
    },
  };
}
