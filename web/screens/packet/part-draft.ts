import type { Part } from '#server/contract/repair.ts';
import { coreStates, partKinds } from '#server/contract/words.ts';
import { readNumber } from '#web/format/read-number.ts';
import type { DraftFields } from '#web/ui/kept-drafts.ts';

const sources = ['new', 'rebuilt', 'used'] as const;
const mostMoney = 10_000_000;

export const writeFigure = (value: number | null): string => (value === null ? '' : String(value));

export const emptyPart: DraftFields = {
  kind: '',
  what: '',
  source: 'new',
  supplier: '',
  price: '',
  core_deposit: '',
  core: 'none',
};

export const toPartDraft = (part: Part): DraftFields => ({
  kind: part.kind,
  what: part.what,
  source: part.source,
  supplier: part.supplier,
  price: writeFigure(part.price),
  core_deposit: writeFigure(part.core_deposit),
  core: part.core,
});

export type PartRead = { part: Part; faults?: undefined } | { part?: undefined; faults: DraftFields };

export function readPart(draft: DraftFields): PartRead {
  const faults: Record<string, string> = {};
  const money = (name: string): number | null => {
    const text = draft[name] ?? '';
    if (text.trim() === '') return null;
    const read = readNumber(text, { least: 0, most: mostMoney, decimalComma: true });
    if (read.value === null) faults[name] = read.fault;
    return read.value;
  };
  const kind = partKinds.find((one) => one === draft.kind);
  if (kind === undefined) faults.kind = 'Choose what was replaced.';
  const price = money('price');
  const core_deposit = money('core_deposit');
  if (kind === undefined || Object.keys(faults).length > 0) return { faults };
  return {
    part: {
      kind,
      what: (draft.what ?? '').trim(),
      source: sources.find((one) => one === draft.source) ?? 'new',
      supplier: (draft.supplier ?? '').trim(),
      price,
      core_deposit,
      core: coreStates.find((one) => one === draft.core) ?? 'none',
    },
  };
}
