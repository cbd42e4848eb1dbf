import { findKnownUnits } from '#db/queries/find-known-units.ts';
import type { CanSummary, Doubt, Look } from '#server/contract/looks.ts';
import type { Given, Mapping } from '#server/contract/mappings.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';
import { lookAtCanLog } from '#server/services/can-log/look-at-can-log.ts';
import { toCanOptions } from '#server/services/can-log/to-can-options.ts';
import type { Context } from '#server/services/context.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { BREAKS_OFF } from '#server/services/intake/line.ts';
import { checkMapping, findLacking } from '#server/services/intake/mapped/check-mapping.ts';
import { findZoneLack } from '#server/services/intake/propose/choose-window.ts';
import { newReadNotes } from '#server/services/intake/read-with.ts';
import { type DeliveryFormat, readLines } from '#server/services/intake/receive-delivery.ts';
import { sniffFormat } from '#server/services/intake/sniff-format.ts';
import { type CsvLook, type LookedMapping, lookAtCsv } from './look-at-csv.ts';
import { leaveCutLine, takeHead } from './take-head.ts';
import { createTally } from './tally-lines.ts';

const VEHICLES_SHOWN = 100;

export interface BodyToLookAt {
  /** unfolded */
  chunks: AsyncGenerator<Buffer>;
  gzip: boolean;
  /** false: the beginning of a file, whose last line is left out */
  whole: boolean;
  /** null: told by its name and beginning */
  format: DeliveryFormat | null;
  given: Given;
  mapping: LookedMapping | null;
  ignoreUnknownColumns: boolean;
}

/** What a body would come to, read as storing it would. Nothing of it is stored, no vehicle either. */
export async function lookAtBody(context: Context, body: BodyToLookAt): Promise<Look> {
  const { given, whole, ignoreUnknownColumns } = body;
  const { head, chunks } = await takeHead(body.chunks);
  const beginning = head.toString('utf8', 0, 4096);
  const format = body.format ?? sniffFormat(given.file ?? '', beginning);
  const notCsv: CsvLook = {
    ...{ own_form: format !== 'csv', mapping: null, columns: [], names: [], doubts: [] },
    unread: null,
  };
  // An array may be one line; its reader leaves out the element that is cut.
  const isCut = !whole && format !== 'json';
  const start = isCut ? leaveCutLine(head) : head;
  const { unread, ...csv } =
    format === 'csv' ? await lookAtCsv(start, given, body.mapping, ignoreUnknownColumns) : notCsv;
  const tally = createTally(context.now().getTime());
  const lacks: FieldError[] = unread === null ? [] : [unread];
  if (csv.mapping !== null) lacks.push(...(await listLacking(start, csv.mapping, given)));
  let can: CanSummary | null = null;
  if (lacks.length === 0) {
    const read = { format, mapping: csv.mapping, given, ignoreUnknownColumns };
    const told = await readAll(context, read, isCut ? withoutCutLine(chunks) : chunks, whole, tally.add);
    lacks.push(...told.lacks);
    csv.doubts.push(...told.doubts);
    can = told.can;
  }
  const vehicles = tally.vehicles().slice(0, VEHICLES_SHOWN);
  const known = await findKnownUnits(
    context.db,
    vehicles.map(([unit]) => unit),
  );
  return {
    format,
    gzip: body.gzip,
    whole,
    ...csv,
    ...tally.counted(),
    lacks,
    vehicles: vehicles.map(([vehicle, readings]) => ({ vehicle, readings, known: known.has(vehicle) })),
    can,
  };
}

/** All that is lacking at once, the zone too, which only the times themselves tell. */
async function listLacking(start: Buffer, mapping: Mapping, given: Given): Promise<FieldError[]> {
  const errors = checkMapping(mapping);
  if (errors.length > 0) return errors;
  const lacking = findLacking(mapping, given);
  if (lacking.length === 0 || lacking.some(({ field }) => field === 'zone')) return lacking;
  return [...lacking, ...(await findZoneLack(start, mapping, given))];
}

interface ReadAs {
  format: DeliveryFormat;
  mapping: Mapping | null;
  given: Given;
  ignoreUnknownColumns: boolean;
}

type Add = ReturnType<typeof createTally>['add'];

interface Told {
  lacks: FieldError[];
  doubts: Doubt[];
  can: CanSummary | null;
}

/** What ends the reading is told beside what was read before it; of a sample, its end is none. */
async function readAll(
  context: Context,
  read: ReadAs,
  chunks: AsyncIterable<Buffer>,
  whole: boolean,
  add: Add,
): Promise<Told> {
  const told: Told = { lacks: [], doubts: [], can: null };
  if (read.format === 'can') {
    const { lines, ...seen } = await lookAtCanLog(chunks, toCanOptions(context.db, read.given), whole);
    if (seen.lacks.length === 0) lines.forEach(add);
    return seen;
  }
  try {
    for await (const lines of readLines(context.db, read, chunks, newReadNotes()))
      for (const line of lines) if (whole || line.errors?.[0]?.message !== BREAKS_OFF) add(line);
    return told;
  } catch (error) {
    if (error instanceof BodyFault && !whole && error.code !== 'body_empty') return told;
    if (error instanceof BodyFault) return { ...told, lacks: [{ field: '', message: error.message }] };
    if (!(error instanceof SlipdriftError) || error.code !== 'invalid_request') throw error;
    const errors = error.errors.length > 0 ? error.errors : [{ field: '', message: error.message }];
    return { ...told, lacks: errors };
  }
}

/** Holds back what follows the last line end. */
async function* withoutCutLine(chunks: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let held: Buffer[] = [];
  for await (const chunk of chunks) {
    const last = chunk.lastIndexOf(10);
    if (last < 0) {
      held.push(chunk);
      continue;
    }
    yield* held;
    yield chunk.subarray(0, last + 1);
    held = last + 1 < chunk.length ? [chunk.subarray(last + 1)] : [];
  }
}
