import type { FindingRow } from '#db/queries/find-packet.ts';
import type { Finding } from '#server/contract/test-steps.ts';
import { showInput } from './show-input.ts';
import { isTraceInput, type StoredInput, type StoredJudgement } from './stored-packet.ts';

/** A stored finding as the interface shows it, in the words in which it was judged then. */
export function toFinding(row: FindingRow): Finding {
  const input = row.input as StoredInput;
  return {
    id: row.id,
    step: row.step,
    at: row.at.toISOString(),
    by: row.by,
    odometer_km: row.odometerKm === null ? null : Math.round(row.odometerKm),
    ...(row.judgement as StoredJudgement),
    shown: isTraceInput(input)
      ? [
          { label: 'Recorded trace', value: input.file },
          { label: 'Rows', value: input.rows.toLocaleString('en-US') },
        ]
      : showInput(input),
    notes: input.notes,
    trace: row.hasTrace,
  };
}
