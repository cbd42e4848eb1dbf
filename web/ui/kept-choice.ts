import { useSyncExternalStore } from 'react';

/** One choice of this reader, kept in this browser; a browser that keeps nothing gets the first option. */
export function createKeptChoice<T extends string>(key: string, options: readonly [T, ...T[]]) {
  const listeners = new Set<() => void>();
  const isOption = (text: string | null): text is T => options.some((option) => option === text);
  let current: T = read();

  function read(): T {
    try {
      const kept = localStorage.getItem(key);
      return isOption(kept) ? kept : options[0];
    } catch {
      return options[0];
    }
  }

  function set(next: T): void {
    current = next;
    try {
      localStorage.setItem(key, next);
    } catch {
      // Private browsing may refuse storage: the choice then lasts as long as the page.
    }
    for (const listener of listeners) listener();
  }

  function subscribe(listener: () => void): () => void {
    const fromOtherTab = (event: StorageEvent) => {
      if (event.key !== key) return;
      current = read();
      listener();
    };
    listeners.add(listener);
    window.addEventListener('storage', fromOtherTab);
    return () => {
      listeners.delete(listener);
      window.removeEventListener('storage', fromOtherTab);
    };
  }

  const use = (): T => useSyncExternalStore(subscribe, () => current);
  return { options, set, use };
}
