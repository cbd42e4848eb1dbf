import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { BodyFault } from './body-fault.ts';
import { guardBody } from './guard-body.ts';

const MIB = 1_048_576;

async function* inChunks(bytes: Buffer, size: number, failure?: Error): AsyncGenerator<Uint8Array> {
  for (let from = 0; from < bytes.length; from += size) yield bytes.subarray(from, from + size);
  if (failure !== undefined) throw failure;
}

async function read(body: AsyncIterable<Uint8Array>, gzip: boolean, limitBytes = 512 * MIB) {
  const guarded = guardBody(body, gzip, limitBytes);
  const parts: Buffer[] = [];
  let largest = 0;
  try {
    for await (const chunk of guarded) {
      largest = Math.max(largest, chunk.length);
      parts.push(Buffer.from(chunk));
    }
    return { bytes: Buffer.concat(parts), largest, fault: null };
  } catch (error) {
    return { bytes: Buffer.concat(parts), largest, fault: error as BodyFault };
  }
}

const text = Buffer.from(Array.from({ length: 5000 }, (_, i) => `line ${i} ${(i * 7919) % 1000}\n`).join(''));

describe('guarding a body', () => {
  it.each([1, 100, 1_000_000])('unfolds gzip that comes in chunks of %i bytes', async (size) => {
    const { bytes, fault } = await read(inChunks(gzipSync(text), size), true);
    expect(fault).toBeNull();
    expect(bytes.equals(text)).toBe(true);
  });

  it('unfolds gzip of several members, as concatenated files are', async () => {
    const { bytes } = await read(inChunks(Buffer.concat([gzipSync('one\n'), gzipSync('two\n')]), 7), true);
    expect(bytes.toString()).toBe('one\ntwo\n');
  });

  it('takes zeros after the last member for padding, and ends, wherever the body is cut', async () => {
    const padded = Buffer.concat([gzipSync('one\n'), Buffer.alloc(40)]);
    for (let size = 1; size <= padded.length; size += 1) {
      const { bytes, fault } = await read(inChunks(padded, size), true);
      expect(fault).toBeNull();
      expect(bytes.toString()).toBe('one\n');
    }
  });

  it('hands on all that came before gzip breaks', async () => {
    const packed = gzipSync(text);
    const cut = await read(inChunks(packed.subarray(0, packed.length - 8), 333), true);
    expect(cut.fault).toMatchObject({ code: 'body_broken' });
    expect(cut.bytes.equals(text)).toBe(true);
    const spoilt = Buffer.from(packed);
    spoilt.fill(0xaa, packed.length >> 1);
    const broken = await read(inChunks(spoilt, 333), true);
    expect(broken.fault).toBeInstanceOf(BodyFault);
    expect(broken.bytes.length).toBeGreaterThan(text.length / 4);
    expect(text.subarray(0, 20_000).equals(broken.bytes.subarray(0, 20_000))).toBe(true);
  });

  it('ends a gzip bomb long before its end, holding little of it', async () => {
    const bomb = gzipSync(Buffer.alloc(64 * MIB));
    const { fault, largest } = await read(inChunks(bomb, bomb.length), true);
    expect(fault).toMatchObject({ code: 'body_too_large', message: expect.stringContaining('200 times') });
    expect(largest).toBeLessThanOrEqual(65_536);
  });

  it('ends a body over the limit, on the wire or unfolded', async () => {
    const wire = await read(inChunks(Buffer.alloc(3 * MIB, 'x'), 65_536), false, 2 * MIB);
    expect(wire.fault).toMatchObject({ code: 'body_too_large', message: expect.stringContaining('2 MiB') });
    expect(wire.bytes.length).toBe(2 * MIB);
    const unfolded = await read(inChunks(gzipSync(Buffer.alloc(3 * MIB, 'x')), 65_536), true, 2 * MIB);
    expect(unfolded.fault).toMatchObject({ message: expect.stringContaining('unfolded larger than') });
  });

  it('tells a sender that went away from a fault of ours', async () => {
    const gone = new Error('aborted');
    const { bytes, fault } = await read(inChunks(text, 1000, gone), false);
    expect(fault).toMatchObject({
      code: 'body_broken',
      message: 'The connection ended before the body did.',
      cause: gone,
    });
    expect(bytes.equals(text)).toBe(true);
  });
});
