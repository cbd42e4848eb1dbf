import type { SeenFile } from './list-files.ts';

/** An empty file is often one that is only about to be written. */
const EMPTY_STILL_FACTOR = 12;

interface Sight {
  bytes: number;
  modifiedMs: number;
  sinceMs: number;
}

/** Tells which files have not changed for `stillMs`, by a clock of ours: those of network shares go as they like. */
export function createStillness(stillMs: number, nowMs: () => number = () => performance.now()) {
  let sights = new Map<string, Sight>();
  return (files: readonly SeenFile[]): SeenFile[] => {
    const next = new Map<string, Sight>();
    for (const { path, bytes, modifiedMs } of files) {
      const before = sights.get(path);
      const isSame = before?.bytes === bytes && before.modifiedMs === modifiedMs;
      next.set(path, isSame ? before : { bytes, modifiedMs, sinceMs: nowMs() });
    }
    sights = next;
    return files.filter(({ path, bytes }) => {
      const since = sights.get(path)?.sinceMs ?? nowMs();
      return nowMs() - since >= stillMs * (bytes === 0 ? EMPTY_STILL_FACTOR : 1);
    });
  };
}
