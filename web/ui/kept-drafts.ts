import { useSyncExternalStore } from 'react';

/** Texts by field, as they were typed. */
export type DraftFields = Readonly<Record<string, string>>;

const place = 'slipdrift.draft.';
const listeners = new Set<() => void>();
/** What this window typed; it lasts as long as the page where the browser keeps nothing. */
const inMemory = new Map<string, string | null>();

function read(key: string): string | null {
  const known = inMemory.get(key);
  if (known !== undefined) return known;
  try {
    return localStorage.getItem(place + key);
  } catch {
    return null;
  }
}

function write(key: string, text: string | null): void {
  inMemory.set(key, text);
  try {
    if (text === null) localStorage.removeItem(place + key);
    else localStorage.setItem(place + key, text);
  } catch {
    // Private browsing may refuse storage, and it may be full: the draft then lasts as long as the page.
  }
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  const fromOtherTab = ({ key }: StorageEvent) => {
    if (key === null || !key.startsWith(place)) return;
    inMemory.delete(key.slice(place.length));
    listener();
  };
  listeners.add(listener);
  window.addEventListener('storage', fromOtherTab);
  return () => {
    listeners.delete(listener);
    window.removeEventListener('storage', fromOtherTab);
  };
}

/** What was typed under a name and is not stored on the server yet: kept on this device until it is forgotten. */
export function useKeptText(key: string) {
  const kept = useSyncExternalStore(subscribe, () => read(key));
  return { kept, keep: (text: string) => write(key, text), forget: () => write(key, null) };
}

/** Which of some names have something kept. */
export function useKeptNames(keys: readonly string[]): string[] {
  const joined = useSyncExternalStore(subscribe, () => keys.filter((key) => read(key) !== null).join('\n'));
  return joined === '' ? [] : joined.split('\n');
}

/** What was kept, read back; a text of another shape is no draft. */
export function readFields(text: string | null): DraftFields | null {
  const found = readJson(text);
  return isFields(found) ? found : null;
}

export const readFieldLists = (text: string | null): DraftFields[] | null => {
  const found = readJson(text);
  return Array.isArray(found) && found.every(isFields) ? found : null;
};

function readJson(text: string | null): unknown {
  if (text === null) return null;
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

const isFields = (found: unknown): found is DraftFields =>
  typeof found === 'object' &&
  found !== null &&
  !Array.isArray(found) &&
  Object.values(found).every((value) => typeof value === 'string');
