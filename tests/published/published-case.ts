import { readFileSync } from 'node:fs';
import { expect } from 'vitest';

interface Tolerance {
  rel?: number;
  abs?: number;
}

/** A worked example from outside, as described in README.md beside this file. */
export interface PublishedCase {
  id: string;
  topic: string;
  source: string;
  provenance: { input: string; computed: string; published: 'none' | Record<string, string> };
  input: unknown;
  expected: { computed: unknown; published: Record<string, unknown> };
  tolerance: { computed: Tolerance; published: Record<string, Tolerance> };
  notes: string;
}

export function readCase(id: string): PublishedCase {
  return JSON.parse(readFileSync(new URL(`cases/${id}.json`, import.meta.url), 'utf8'));
}

function leavesOf(value: unknown, path: string[] = []): { path: string[]; value: unknown }[] {
  if (typeof value !== 'object' || value === null) return [{ path, value }];
  return Object.entries(value).flatMap(([key, part]) => leavesOf(part, [...path, key]));
}

function at(value: unknown, path: readonly string[]): unknown {
  return path.reduce<unknown>(
    (part, key) =>
      typeof part === 'object' && part !== null ? (part as Record<string, unknown>)[key] : undefined,
    value,
  );
}

function expectNear(actual: unknown, wanted: unknown, tolerance: Tolerance, what: string) {
  if (typeof wanted !== 'number') return expect(actual, what).toEqual(wanted);
  expect(actual, what).toBeTypeOf('number');
  const allowed = (tolerance.abs ?? 0) + (tolerance.rel ?? 0) * Math.abs(wanted);
  expect(Math.abs(Number(actual) - wanted), `${what}: ${actual} against ${wanted}`).toBeLessThanOrEqual(
    allowed,
  );
}

/**
 * Hold an answer against a case: each of its numbers must be in `expected.computed` and within tolerance, and so
 * must each printed value that the answer covers. Returns the paths of the printed values that were checked.
 */
export function expectCase(one: PublishedCase, actual: object): string[] {
  const leaves = leavesOf(actual);
  expect(leaves.length, `${one.id} compares something`).toBeGreaterThan(0);
  for (const { path, value } of leaves) {
    const wanted = at(one.expected.computed, path);
    expect(wanted, `${one.id} has ${path.join('/')}`).not.toBeUndefined();
    expectNear(value, wanted, one.tolerance.computed, `${one.id} computed ${path.join('/')}`);
  }
  const marks = one.provenance.published === 'none' ? {} : one.provenance.published;
  return Object.entries(one.expected.published).flatMap(([key, printed]) => {
    const own = at(actual, key.split('/'));
    if (own === undefined) return [];
    const tolerance = one.tolerance.published[key] ?? {};
    for (const { path, value } of leavesOf(printed)) {
      expectNear(at(own, path), value, tolerance, `${one.id} printed ${key} (${marks[key] ?? 'no mark'})`);
    }
    return [key];
  });
}
