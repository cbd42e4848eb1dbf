import type { Room } from './find-room.ts';
import type { Item } from './plan-items.ts';
import type { Place } from './plan-search.ts';

/** What is in the hand, by mouse, finger or keys, and where it would come to lie. */
export interface Carried {
  item: Item;
  by: 'mouse' | 'finger' | 'keys';
  place: Place | null;
  room: Room | null;
}

/** Kept beside React: while something is carried, only what is drawn of it moves. */
export function createCarry() {
  let carried: Carried | null = null;
  const listeners = new Set<() => void>();
  return {
    get: (): Carried | null => carried,
    set(next: Carried | null): void {
      if (next === carried) return;
      carried = next;
      for (const listener of listeners) listener();
    },
    subscribe(listener: () => void): () => void {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
export type Carry = ReturnType<typeof createCarry>;
