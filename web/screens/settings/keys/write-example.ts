import type { KeyRight } from '#server/contract/words.ts';

/**
 * A line to try the key with, which stores nothing: what a key may read, or else whose it is. The key itself stays out of
 * it, and so out of the history of a shell.
 */
export function writeExample(right: KeyRight, origin: string): string {
  const path = right === 'read' ? '/api/ranking?limit=5' : '/api/session';
  return `curl -H "Authorization: Bearer $KEY" '${origin}${path}'`;
}
