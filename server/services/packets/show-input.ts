import type { FindingInput } from '#server/contract/test-steps.ts';

/** The input of a step in words and units. */
export function showInput(_input: FindingInput): { label: string; value: string }[] {
  return [];
}
