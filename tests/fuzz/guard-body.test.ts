import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { it } from 'vitest';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { guardBody } from '#server/services/intake/guard-body.ts';
import { hashBody } from '#server/services/intake/hash-body.ts';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { hostileText } from './hostile-values.ts';
import { inPieces, mutated, pieceSizes } from './mutate-bytes.ts';

const LIMIT_BYTES = 100_000;

const content = fc.oneof(
  fc.array(hostileText, { maxLength: 20 }).map((texts) => Buffer.from(texts.join('\n'))),
  fc.uint8Array({ maxLength: 300 }).map((bytes) => Buffer.from(bytes)),
  fc.integer({ min: 0, max: 2 }).map((more) => Buffer.alloc(LIMIT_BYTES - 1 + more, 'a')),
);
const tail = fc
  .constantFrom('', '', '\0', '\0\0\0\0', 'x', '\x1f\x8b', 'gzip')
  .map((text) => Buffer.from(text, 'latin1'));

async function unfold(
  pieces: Buffer[],
  gzip: boolean,
): Promise<{ bytes: Buffer; fault: string | null; digest: string | null }> {
  async function* chunks() {
    yield* pieces;
  }
  const body = hashBody(guardBody(chunks(), gzip, LIMIT_BYTES));
  const got: Buffer[] = [];
  try {
    for await (const chunk of body.chunks) got.push(Buffer.from(chunk));
    return { bytes: Buffer.concat(got), fault: null, digest: body.sha256() };
  } catch (error) {
    if (!(error instanceof BodyFault)) throw error;
    return { bytes: Buffer.concat(got), fault: error.code, digest: null };
  }
}

it('unfolds gzip that is whole, broken, doubled or followed by rubbish, and ends every time', async () => {
  const members = fc.array(content, { minLength: 1, maxLength: 2 });
  const input = fc.tuple(members, tail, fc.boolean(), pieceSizes).chain(([parts, after, spoil, sizes]) => {
    const zipped = Buffer.concat([...parts.map((part) => gzipSync(part)), after]);
    const wire = spoil ? mutated(fc.constant(zipped)) : fc.constant(zipped);
    return fc.tuple(
      fc.constant(Buffer.concat(parts)),
      wire,
      fc.constant(spoil || after.length > 0),
      fc.constant(sizes),
    );
  });
  await fuzz('gzip', input, async ([sent, wire, spoilt, sizes]) => {
    const whole = await unfold([wire], true);
    const cut = await unfold(inPieces(wire, sizes), true);
    hold(
      (cut.fault === null) === (whole.fault === null),
      () => `${cut.fault} in pieces, ${whole.fault} whole`,
    );
    // What is both too large and broken may be found to be either first.
    if (sent.length < LIMIT_BYTES) holdEqual(String(cut.fault), String(whole.fault));
    if (whole.fault === null) {
      hold(cut.bytes.equals(whole.bytes), () => 'other bytes in other pieces');
      holdEqual(String(cut.digest), String(whole.digest));
    }
    if (spoilt) return;
    const fits = sent.length <= LIMIT_BYTES && !(sent[0] === 0x1f && sent[1] === 0x8b);
    hold(fits === (whole.fault === null), () => `${sent.length} bytes: ${whole.fault}`);
    if (fits) hold(whole.bytes.equals(sent), () => 'other bytes than were sent');
  });
});

it('lets plain bytes through as they are, up to the limit', async () => {
  await fuzz('plainBody', fc.tuple(content, pieceSizes), async ([bytes, sizes]) => {
    const { bytes: got, fault } = await unfold(inPieces(bytes, sizes), false);
    const isGzip = bytes[0] === 0x1f && bytes[1] === 0x8b && (sizes[0] ?? 0) > 1;
    if (isGzip) return;
    hold(bytes.length <= LIMIT_BYTES === (fault === null), () => `${bytes.length} bytes: ${fault}`);
    if (fault === null) hold(got.equals(bytes), () => 'other bytes than were sent');
  });
});
