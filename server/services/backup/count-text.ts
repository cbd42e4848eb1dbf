import { createHash } from 'node:crypto';

const LINE_FEED = 10;

export interface TextCount {
  rows: number;
  bytes: number;
  sha256: string;
}

/** Counts and digests the text of one table. COPY writes a line feed within a value as `\n`: every real one ends a row. */
export function createTextCounter() {
  const hash = createHash('sha256');
  let rows = 0;
  let bytes = 0;
  return {
    add(text: Buffer): void {
      hash.update(text);
      bytes += text.length;
      for (let at = text.indexOf(LINE_FEED); at >= 0; at = text.indexOf(LINE_FEED, at + 1)) rows += 1;
    },
    finish: (): TextCount => ({ rows, bytes, sha256: hash.digest('hex') }),
  };
}
