import { causeWords, modeWords } from '#server/contract/packet-words.ts';
import { causes } from '#server/contract/words.ts';

const known = new Map(
  causes.flatMap((cause) =>
    [cause, causeWords[cause], modeWords[cause]].map((words) => [toKey(words), modeWords[cause]] as const),
  ),
);

/**
 * The one word for a mode, where it is one of the causes that a packet knows: by its name, by its words on the packet, or by
 * its word among modes. Any other mode stays as it was written.
 */
export const nameMode = (mode: string | null): string | null =>
  mode === null ? null : (known.get(toKey(mode)) ?? mode);

function toKey(words: string): string {
  return words.toLowerCase().replaceAll(/[\s_]+/g, ' ');
}
