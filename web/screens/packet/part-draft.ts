import type { Part } from '#server/contract/repair.ts';
import { coreStates, holdsConverter, type PartKind, partKinds } from '#server/contract/words.ts';
import { toReaderDistance } from '#web/format/format-km.ts';
import { readNumber } from '#web/format/read-number.ts';
import type { Units } from '#web/format/units.ts';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { toKm } from './read-close.ts';

const sources = ['new', 'rebuilt', 'used'] as const;
const mostMoney = 10_000_000;
const mostKm = 5_000_000;

export const writeFigure = (value: number | null): string => (value === null ? '' : String(value));

export const emptyPart: DraftFields = {
  kind: '',
  what: '',
  source: 'new',
  supplier: '',
  had_run: '',
  had_run_unit: '',
  price: '',
  core_deposit: '',
  core: 'none',
};

type Distance = Units['distance'];

/** A figure in the reader's unit that comes back as the same kilometres: whole, unless that would change them. */
function writeDistance(km: number | null, units: Units): string {
  if (km === null) return '';
  const whole = Math.round(toReaderDistance(km, units));
  return String(toKm(whole, units) === km ? whole : Number(toReaderDistance(km, units).toFixed(2)));
}

/** Whether it is asked what the converter of a part had run before. */
export const asksRun = ({ kind, source }: DraftFields): boolean =>
  source === 'used' && holdsConverter(kind as PartKind);

/** A figure keeps the unit that it was typed in, whatever the reader chooses meanwhile. */
export const unitOfRun = (draft: DraftFields, units: Units): Distance =>
  draft.had_run_unit === 'km' || draft.had_run_unit === 'mi' ? draft.had_run_unit : units.distance;

export const toPartDraft = (part: Part, units: Units): DraftFields => ({
  kind: part.kind,
  what: part.what,
  source: part.source,
  supplier: part.supplier,
  had_run: writeDistance(part.run_km, units),
  had_run_unit: part.run_km === null ? '' : units.distance,
  price: writeFigure(part.price),
  core_deposit: writeFigure(part.core_deposit),
  core: part.core,
});

export type PartRead = { part: Part; faults?: undefined } | { part?: undefined; faults: DraftFields };

export function readPart(draft: DraftFields, units: Units): PartRead {
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
  const run_km = asksRun(draft)
    ? readRun(draft, { ...units, distance: unitOfRun(draft, units) }, faults)
    : null;
  if (kind === undefined || Object.keys(faults).length > 0) return { faults };
  return {
    part: {
      kind,
      what: (draft.what ?? '').trim(),
      source: sources.find((one) => one === draft.source) ?? 'new',
      supplier: (draft.supplier ?? '').trim(),
      run_km,
      price,
      core_deposit,
      core: coreStates.find((one) => one === draft.core) ?? 'none',
    },
  };
}

function readRun(draft: DraftFields, units: Units, faults: Record<string, string>): number | null {
  const text = draft.had_run ?? '';
  if (text.trim() === '') return null;
  const most = Math.round(toReaderDistance(mostKm, units));
  const read = readNumber(text, { least: 0, most, unit: units.distance });
  if (read.value === null) {
    faults.had_run = read.fault;
    return null;
  }
  return Math.min(mostKm, toKm(read.value, units));
}
