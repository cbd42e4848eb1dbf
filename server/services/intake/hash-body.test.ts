import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { hashBody } from './hash-body.ts';

async function* inChunks(text: string, size: number): AsyncGenerator<Buffer> {
  for (let from = 0; from < text.length; from += size) yield Buffer.from(text.slice(from, from + size));
}

it.each([1, 7, 1000])('lets a body in chunks of %i through and hashes it', async (size) => {
  const body = hashBody(inChunks('{"vehicle":"B-1"}\n{"vehicle":"B-2"}\n', size));
  const parts: Buffer[] = [];
  for await (const chunk of body.chunks) parts.push(chunk);
  const whole = Buffer.concat(parts);
  expect(whole.toString()).toBe('{"vehicle":"B-1"}\n{"vehicle":"B-2"}\n');
  expect(body.sha256()).toBe(createHash('sha256').update(whole).digest('hex'));
});

// FIPS 180-2, appendix B.1: the digest of "abc".
it('makes the hash of the standard', async () => {
  const body = hashBody(inChunks('abc', 2));
  for await (const _ of body.chunks);
  expect(body.sha256()).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
});
