import type { ToldDay } from './tell-day.ts';

/** What the marks of the calendar say. */
export const kindWords: readonly { kind: ToldDay['kind']; words: string }[] = [
  { kind: 'open', words: 'open as usual' },
  { kind: 'short', words: 'less than usual' },
  { kind: 'extra', words: 'more than usual' },
  { kind: 'off', words: 'closed by a special day' },
  { kind: 'closed', words: 'no working day' },
];
