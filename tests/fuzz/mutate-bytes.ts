import fc from 'fast-check';

const piece = fc.oneof(
  fc.uint8Array({ minLength: 1, maxLength: 4 }),
  fc
    .constantFrom('\n', '\r', '"', ',', '\0', '{', '}', '[', ']', '\\', ':', '\ufeff', ' ', '""', '\r\n', '0')
    .map((text) => Buffer.from(text)),
  // Halves of characters, too long forms, a half of a surrogate pair: none of them UTF-8.
  fc
    .constantFrom([0xc3], [0xff], [0xc0, 0x80], [0xed, 0xa0, 0x80], [0xf0, 0x9f])
    .map((bytes) => Buffer.from(bytes)),
);

const change = fc.record({
  /** place as a share of the length */
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  kind: fc.constantFrom('insert', 'replace', 'remove', 'repeat', 'end'),
  bytes: piece,
});

/** Bytes with up to `most` places changed; none, one time in a few. */
export const mutated = (bytes: fc.Arbitrary<Buffer>, most = 3): fc.Arbitrary<Buffer> =>
  fc
    .tuple(bytes, fc.array(change, { maxLength: most }))
    .map(([from, changes]) => changes.reduce(apply, from));

function apply(
  bytes: Buffer,
  { at, kind, bytes: added }: { at: number; kind: string; bytes: Uint8Array },
): Buffer {
  const place = Math.floor(at * bytes.length);
  const before = bytes.subarray(0, place);
  const after = bytes.subarray(place);
  if (kind === 'end') return Buffer.from(before);
  if (kind === 'insert') return Buffer.concat([before, added, after]);
  if (kind === 'remove') return Buffer.concat([before, after.subarray(added.length)]);
  if (kind === 'repeat') return Buffer.concat([before, after.subarray(0, 20), after]);
  return Buffer.concat([before, added, after.subarray(added.length)]);
}

/** Sizes of the pieces in which bytes come: small ones, so that borders fall everywhere. */
export const pieceSizes: fc.Arbitrary<number[]> = fc.oneof(
  { weight: 1, arbitrary: fc.constant<number[]>([1]) },
  { weight: 5, arbitrary: fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 6 }) },
  { weight: 2, arbitrary: fc.array(fc.integer({ min: 1, max: 70_000 }), { minLength: 1, maxLength: 3 }) },
);

/** The same bytes in pieces of these sizes, over and over. */
export function inPieces(bytes: Buffer, sizes: readonly number[]): Buffer[] {
  const pieces: Buffer[] = [];
  for (let from = 0, i = 0; from < bytes.length; i += 1) {
    // Single bytes of a long body would make more objects than the readers under test.
    const size = Math.max(sizes[i % sizes.length] ?? 1, Math.ceil(bytes.length / 600));
    pieces.push(bytes.subarray(from, from + size));
    from += size;
  }
  return pieces;
}
