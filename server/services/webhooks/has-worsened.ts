import type { ToldGrade } from '#server/contract/webhooks.ts';

/** From good to bad; whatever has no place among them counts as good. */
const order: readonly string[] = ['watch', 'book', 'hold'] satisfies ToldGrade[];

export const hasWorsened = (from: string | null, to: string): boolean =>
  order.indexOf(to) > (from === null ? -1 : order.indexOf(from));
