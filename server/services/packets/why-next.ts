import type { Walk } from '#server/engine/diagnosis/walk-tree.ts';
import { resultWords } from './cause-words.ts';

/** What led to the step that is next; null for the first one. */
export function whyNext({ path }: Pick<Walk, 'path'>): string | null {
  const result = path.at(-2)?.result ?? null;
  if (result === null) return null;
  const words = resultWords[result];
  return `Next after: ${words.charAt(0).toLowerCase()}${words.slice(1)}.`;
}
