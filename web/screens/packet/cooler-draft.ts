import type { CoolerRecord } from '#server/contract/repair.ts';
import { readNumber } from '#web/format/read-number.ts';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { writeFigure } from './part-draft.ts';
import { ticked } from './step-fields.ts';

const doneWays = ['replaced', 'flushed', 'not_done'] as const;
const methods = ['pumped_through_filter', 'compressed_air', 'spray_can', 'other'] as const;

export const toCoolerDraft = (record: CoolerRecord | null): DraftFields =>
  record === null
    ? {}
    : {
        done: record.done,
        minutes: writeFigure(record.minutes),
        method: record.method ?? '',
        both_directions: record.both_directions ? ticked : '',
        filter_clean: record.filter_clean ? ticked : '',
        flow_before_l_min: writeFigure(record.flow_before_l_min),
        flow_after_l_min: writeFigure(record.flow_after_l_min),
        notes: record.notes,
      };

export type CoolerRead =
  | { cooler: CoolerRecord; faults?: undefined }
  | { cooler?: undefined; faults: DraftFields };

/** Bounds are the contract's. */
export function readCooler(draft: DraftFields): CoolerRead {
  const faults: Record<string, string> = {};
  const figure = (name: string, most: number, unit: string): number | null => {
    const text = draft[name] ?? '';
    if (text.trim() === '') return null;
    const read = readNumber(text, { least: 0, most, unit, decimalComma: true });
    if (read.value === null) faults[name] = read.fault;
    return read.value;
  };
  const done = doneWays.find((one) => one === draft.done);
  if (done === undefined) faults.done = 'Choose one.';
  const isFlushed = done === 'flushed';
  const minutes = isFlushed ? figure('minutes', 1440, 'min') : null;
  const flow_before_l_min = figure('flow_before_l_min', 100, 'L/min');
  const flow_after_l_min = figure('flow_after_l_min', 100, 'L/min');
  if (done === undefined || Object.keys(faults).length > 0) return { faults };
  return {
    cooler: {
      done,
      minutes,
      method: isFlushed ? (methods.find((one) => one === draft.method) ?? null) : null,
      both_directions: isFlushed && draft.both_directions === ticked,
      filter_clean: isFlushed && draft.filter_clean === ticked,
      flow_before_l_min,
      flow_after_l_min,
      notes: (draft.notes ?? '').trim(),
    },
  };
}
