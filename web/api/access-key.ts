import { useSyncExternalStore } from 'react';

/** `wanted`: the server asked for a key and none was at hand; `wrong`: it did not know the one it got. */
export type KeyState = 'none' | 'held' | 'wanted' | 'wrong';

const place = 'slipdrift-key';
const listeners = new Set<() => void>();
let key = readKey();
let state: KeyState = key === null ? 'none' : 'held';

/** The key that calls bring along, where the server wants one. It is kept until the tab is closed, and nowhere else. */
export const accessKey = {
  get: (): string | null => key,

  hold(next: string): void {
    writeKey(next);
    become('held');
  },

  forget(): void {
    writeKey(null);
    become('wanted');
  },

  /** After an answer of 401 to a call that brought `sent`; one that was overtaken by a newer key says nothing. */
  refused(sent: string | null): void {
    if (sent !== key) return;
    writeKey(null);
    become(sent === null ? 'wanted' : 'wrong');
  },

  use: (): KeyState => useSyncExternalStore(subscribe, () => state),
};

function become(next: KeyState): void {
  state = next;
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function readKey(): string | null {
  try {
    return sessionStorage.getItem(place);
  } catch {
    return null;
  }
}

function writeKey(next: string | null): void {
  key = next;
  try {
    if (next === null) sessionStorage.removeItem(place);
    else sessionStorage.setItem(place, next);
  } catch {
    // A browser that keeps nothing holds the key as long as the page stays.
  }
}
