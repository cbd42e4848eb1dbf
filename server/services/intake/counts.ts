import type { DeliveryReply } from '#server/contract/receipts.ts';

export type Counts = Pick<DeliveryReply, 'received' | 'stored' | 'duplicate' | 'conflicting' | 'refused'>;

export const noCounts: Counts = { received: 0, stored: 0, duplicate: 0, conflicting: 0, refused: 0 };

export const addCounts = (a: Counts, b: Counts): Counts => ({
  received: a.received + b.received,
  stored: a.stored + b.stored,
  duplicate: a.duplicate + b.duplicate,
  conflicting: a.conflicting + b.conflicting,
  refused: a.refused + b.refused,
});
