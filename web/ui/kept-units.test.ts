import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { joinUnits, readUnits, splitUnits, writeUnits } from './kept-units.ts';

const many = (count: number, from = 0) => Array.from({ length: count }, (_, i) => `B-${from + i}`);

/** What a browser keeps for a window. */
function makeStorage(room = Number.POSITIVE_INFINITY) {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    removeItem: (key: string) => void kept.delete(key),
    setItem: (key: string, value: string) => {
      if (value.length > room) throw new DOMException('full', 'QuotaExceededError');
      kept.set(key, value);
    },
  };
}

let storage: ReturnType<typeof makeStorage>;
beforeEach(() => {
  storage = makeStorage();
  vi.stubGlobal('sessionStorage', storage);
});
afterEach(() => vi.unstubAllGlobals());

describe('a choice of vehicles', () => {
  it('of few stands in the address, commas and colons of their own kept', () => {
    const units = ['A,1', 'kept:x', 'B/2', '100%', '00417'];
    const text = writeUnits(units);
    expect(text).toBe('A%2C1,kept%3Ax,B%2F2,100%25,00417');
    expect(readUnits(text)).toEqual(units);
    expect(storage.kept.size).toBe(0);
  });

  it('of many is kept for the window, under a name that is short and the same for the same choice', () => {
    const text = writeUnits(many(1000));
    expect(text.length).toBeLessThan(30);
    expect(readUnits(text)).toEqual(many(1000));
    expect(writeUnits(many(1000))).toBe(text);
    expect(writeUnits(many(999))).not.toBe(text);
  });

  it('that this window does not have is null, not empty', () => {
    expect(readUnits('kept:nobody-1')).toBeNull();
    expect(readUnits(undefined)).toEqual([]);
    expect(readUnits('')).toEqual([]);
  });

  it('forgets the oldest of very many', () => {
    for (let i = 0; i < 120; i++) writeUnits(many(500, i));
    expect(storage.kept.size).toBeLessThanOrEqual(41);
  });

  it('lasts as long as the page where the browser keeps nothing', () => {
    vi.stubGlobal('sessionStorage', makeStorage(100));
    expect(readUnits(writeUnits(many(700)))).toEqual(many(700));
  });

  it('names each once and survives a broken escape', () => {
    expect(splitUnits('a,b,a,,c')).toEqual(['a', 'b', 'c']);
    expect(splitUnits('100%,b')).toEqual(['100%', 'b']);
    expect(splitUnits(joinUnits(['ä ö', 'x&y=z']))).toEqual(['ä ö', 'x&y=z']);
  });
});
