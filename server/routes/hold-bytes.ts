import { SlipdriftError } from '#server/errors.ts';

/** Counts the bytes that requests hold in memory together, and refuses what would be more. */
export function createHold(mostBytes: number) {
  let heldBytes = 0;
  return () => {
    let ownBytes = 0;
    return {
      take(bytes: number): void {
        if (heldBytes + bytes > mostBytes)
          throw new SlipdriftError(
            'busy',
            'Too many files come in at once. Nothing was stored; send it again.',
            {
              retryAfterS: 10,
            },
          );
        heldBytes += bytes;
        ownBytes += bytes;
      },
      giveBack(): void {
        heldBytes -= ownBytes;
        ownBytes = 0;
      },
    };
  };
}
