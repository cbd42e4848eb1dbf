import type { Failure } from '#server/contract/set-up-files/failure-input.ts';
import { nameMode } from '#server/services/fleet/name-mode.ts';
import { type PlacedLife, sayKm } from './placed-life.ts';

interface Contradiction {
  field: keyof Failure;
  message: string;
}

/** A day in a book and a moment on record may be of different zones. */
const SAME_DAY_MS = 86_400_000;

const sayDay = (time: Date): string => time.toISOString().slice(0, 10);

/** What a line says against the life that it ends and the one, if it is there already, that began then. */
export function compareWithRecord(
  failure: Failure,
  km: number,
  ended: PlacedLife,
  begun: PlacedLife | null,
): Contradiction[] {
  const found: Contradiction[] = [];
  const told = (field: keyof Failure, said: string, life: PlacedLife, kept: string) =>
    found.push({
      field,
      message: `says ${said}, but of the life fitted at ${sayKm(life.fittedKm)} ${life.line === null ? 'is on record' : `line ${life.line} has`}: ${kept}. What is on record is corrected with a file of lives`,
    });
  const differ = (said: string | null | undefined, kept: string | null) =>
    said != null && kept !== null && said.toLowerCase() !== kept.toLowerCase();
  const mode = nameMode(failure.mode ?? null);
  if (failure.ended !== undefined && differ(failure.ended, ended.ended))
    told('ended', failure.ended, ended, ended.ended ?? '');
  if (differ(mode, ended.mode)) told('mode', `'${mode}'`, ended, `'${ended.mode}'`);
  const day = failure.day == null ? null : new Date(failure.day);
  if (day !== null) {
    // A vehicle may have stood for days between the removal and the fitting.
    const kept = [ended.removedKm === km ? ended.removedAt : null, begun?.fittedAt ?? null].filter(
      (time) => time !== null,
    );
    const ms = kept.map((time) => time.getTime());
    const isEarly = day.getTime() < Math.min(...ms) - SAME_DAY_MS;
    const isLate = day.getTime() > Math.max(...ms) + SAME_DAY_MS;
    if (kept.length > 0 && (isEarly || isLate))
      told('day', sayDay(day), begun?.fittedAt ? begun : ended, kept.map(sayDay).join(' to '));
    else if (ended.fittedAt !== null && day.getTime() < ended.fittedAt.getTime() - SAME_DAY_MS)
      told('day', sayDay(day), ended, `fitted on ${sayDay(ended.fittedAt)}, which is later`);
  }
  if (begun === null) {
    if (failure.next_source === undefined)
      found.push({
        field: 'next_source',
        message: 'is missing: new, rebuilt or used, or - where nothing was fitted then',
      });
    return found;
  }
  if (failure.next_source === null) told('next_source', 'that nothing was fitted', begun, begun.source);
  else if (differ(failure.next_source, begun.source))
    told('next_source', failure.next_source ?? '', begun, begun.source);
  if (differ(failure.next_supplier, begun.supplier))
    told('next_supplier', `'${failure.next_supplier}'`, begun, `'${begun.supplier}'`);
  if (failure.next_run_km != null && begun.runKm !== null && Math.abs(failure.next_run_km - begun.runKm) >= 1)
    told('next_run_km', sayKm(failure.next_run_km), begun, sayKm(begun.runKm));
  return found;
}
