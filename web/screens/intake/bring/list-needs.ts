import type { Look } from '#server/contract/looks.ts';
import type { Mapping } from '#server/contract/mappings.ts';

export interface Needs {
  vehicle: boolean;
  date: boolean;
  start: boolean;
}

/** What must or may be said with each file, by how it is read. */
export function listNeeds(look: Pick<Look, 'format' | 'can' | 'own_form'>, mapping: Mapping | null): Needs {
  if (look.format === 'can') return { vehicle: true, date: false, start: look.can?.clock !== 'since_1970' };
  if (mapping === null || look.own_form) return { vehicle: false, date: false, start: false };
  return {
    vehicle: mapping.vehicle === 'given',
    date: mapping.time.form === 'text' && mapping.time.date === 'given',
    start: mapping.time.form === 'seconds',
  };
}
