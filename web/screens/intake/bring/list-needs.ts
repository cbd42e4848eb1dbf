import type { Look } from '#server/contract/looks.ts';
import type { Mapping } from '#server/contract/mappings.ts';
import type { BroughtFile } from './brought-files.ts';

export interface Needs {
  vehicle: boolean;
  date: boolean;
  start: boolean;
}

/** What must or may be said with each file, by how it is read. */
export function listNeeds(
  look: Pick<Look, 'format' | 'can' | 'own_form' | 'lacks'>,
  mapping: Mapping | null,
  said: readonly Pick<BroughtFile, 'vehicle' | 'date'>[],
): Needs {
  if (look.format === 'can') return { vehicle: true, date: false, start: look.can?.clock !== 'since_1970' };
  if (mapping === null || look.own_form) return { vehicle: false, date: false, start: false };
  // What the name of one file does not tell can be said, and stays in sight when it was.
  const isLacking = (field: 'vehicle' | 'date') =>
    look.lacks.some((lack) => lack.field === field) || said.some((one) => one[field] !== '');
  const { form, date } = mapping.time;
  const hasDays = form === 'text' || form === 'sheet_days';
  return {
    vehicle: mapping.vehicle === 'given' || (mapping.vehicle === 'file_name' && isLacking('vehicle')),
    date: hasDays && (date === 'given' || (date === 'file_name' && isLacking('date'))),
    start: mapping.time.form === 'seconds',
  };
}
