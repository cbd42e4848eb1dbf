import type { Given, Mapping } from '#server/contract/mappings.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { checkReading } from '#server/services/intake/check-reading.ts';
import { LackingError } from '#server/services/intake/mapped/lacking-error.ts';
import { readMapped } from '#server/services/intake/mapped/read-mapped.ts';
import { newReadNotes } from '#server/services/intake/read-with.ts';
import type { Proposal } from './propose-mapping.ts';

const WINDOWS_S = [0, 1, 2, 5, 10, 30];
const TRIED_BYTES = 131_072;
/** A narrower window will do where it makes nearly as many readings as any. */
const NEARLY = 0.9;
/** What is not given yet, so that rows can be joined all the same. */
const PLACEHOLDER = { vehicle: '-', date: '2026-01-01', zone: 'UTC', start: '2026-01-01T00:00:00Z' };
const LATER_MS = Date.UTC(2100, 0, 1);

/** For a long layout whose values of one moment come some seconds apart: the narrowest window that joins them. */
export async function chooseWindow(head: Buffer, proposal: Proposal): Promise<Proposal> {
  const { mapping, doubts } = proposal;
  if (mapping.layout !== 'long') return proposal;
  const sample = head.subarray(0, Math.max(0, head.lastIndexOf(10, TRIED_BYTES) + 1) || head.length);
  const counts: number[] = [];
  for (const seconds of WINDOWS_S)
    counts.push(await countGood(sample, { ...mapping, join_within_s: seconds }));
  const most = Math.max(...counts);
  const chosen = WINDOWS_S[counts.findIndex((count) => count >= NEARLY * most)] ?? 0;
  if (chosen === 0) return proposal;
  const message = `The values of a reading come some seconds apart; those within ${chosen} s of the first are joined.`;
  return {
    ...proposal,
    mapping: { ...mapping, join_within_s: chosen },
    doubts: [...doubts, { about: 'form', column: null, message }],
  };
}

/** Whether times of a file carry no zone, and none is given: seen at its first rows alone. */
export async function findZoneLack(head: Buffer, mapping: Mapping, given: Given): Promise<FieldError[]> {
  const { zone, ...others } = PLACEHOLDER;
  const sample = head.subarray(0, head.lastIndexOf(10, TRIED_BYTES) + 1);
  async function* chunks() {
    yield sample;
  }
  try {
    const all = { mapping, given: { ...others, ...given } };
    for await (const _ of readMapped(chunks(), all, newReadNotes())) break;
  } catch (error) {
    if (error instanceof LackingError) return error.errors.filter(({ field }) => field === 'zone');
    if (!(error instanceof SlipdriftError || error instanceof BodyFault)) throw error;
  }
  return [];
}

async function countGood(sample: Buffer, mapping: Mapping): Promise<number> {
  async function* chunks() {
    yield sample;
  }
  let good = 0;
  try {
    for await (const lines of readMapped(chunks(), { mapping, given: PLACEHOLDER }, newReadNotes()))
      for (const line of lines)
        if (line.errors === null && checkReading(line.value, LATER_MS).reading !== null) good += 1;
  } catch (error) {
    if (!(error instanceof SlipdriftError || error instanceof BodyFault)) throw error;
  }
  return good;
}
