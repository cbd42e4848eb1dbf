import { SlipdriftError } from '#server/errors.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { guardBody } from '#server/services/intake/guard-body.ts';
import { badLine, type Line } from '#server/services/intake/line.ts';
import { parseJsonLine } from '#server/services/intake/parse-json-line.ts';
import { readCsv } from '#server/services/intake/read-csv.ts';
import { readJson } from '#server/services/intake/read-json.ts';
import { readNdjson } from '#server/services/intake/read-ndjson.ts';
import { newReadNotes } from '#server/services/intake/read-with.ts';
import { addVehicleColumn } from './add-vehicle-column.ts';
import { nameVehicle } from './name-vehicle.ts';

const RAW_LOOKED_AT_BYTES = 16_384;

/**
 * The lines of one message: a reading, several as JSON, one a line, or CSV with a header; also as gzip. Never throws: what
 * cannot be read becomes a line that says why, with its raw text. `vehicle` is the one that the topic names.
 */
export async function* readPayload(
  payload: Buffer,
  vehicle: string | null,
  limitBytes: number,
): AsyncGenerator<Line[]> {
  // An empty message is how a broker is told to forget the last one that it kept.
  if (payload.length === 0) return;
  let body: Buffer;
  try {
    body = await unfold(payload, limitBytes);
  } catch (error) {
    yield [refuse(payload, vehicle, error)];
    return;
  }
  try {
    for await (const lines of readBody(body, vehicle)) yield lines.map((line) => nameVehicle(line, vehicle));
  } catch (error) {
    yield [refuse(body, vehicle, error)];
  }
}

async function unfold(payload: Buffer, limitBytes: number): Promise<Buffer> {
  const isGzip = payload[0] === 0x1f && payload[1] === 0x8b;
  if (!isGzip) return payload;
  const chunks: Buffer[] = [];
  for await (const chunk of guardBody(once(payload), true, limitBytes)) chunks.push(chunk);
  return Buffer.concat(chunks);
}

function readBody(body: Buffer, vehicle: string | null): AsyncGenerator<Line[]> {
  const text = body.toString('utf8').replace(/^\ufeff/, '');
  const start = text.trimStart();
  if (start.startsWith('[') || /^\{\s*"readings"\s*:\s*\[/.test(start)) return readJson(once(body));
  if (!start.startsWith('{') && !/^[^\n]*[,;\t|]/.test(start)) return refuseWhole(text);
  if (!start.startsWith('{'))
    return readCsv(once(vehicle === null ? body : addVehicleColumn(text, vehicle)), false, newReadNotes());
  return isOneObject(start) ? readOne(text.trim()) : readNdjson(once(body));
}

/** A reading may be written over several lines; several readings stand one a line. */
function isOneObject(text: string): boolean {
  const firstLine = text.slice(0, text.indexOf('\n') + 1 || undefined).trim();
  return firstLine.length === text.trim().length || !firstLine.endsWith('}');
}

async function* readOne(text: string): AsyncGenerator<Line[]> {
  yield [parseJsonLine(1, text)];
}

async function* refuseWhole(text: string): AsyncGenerator<Line[]> {
  const raw = text.slice(0, RAW_LOOKED_AT_BYTES);
  yield [badLine(1, raw, 'is neither JSON nor CSV whose first line names the columns')];
}

async function* once(body: Buffer): AsyncGenerator<Buffer> {
  yield body;
}

function refuse(body: Buffer, vehicle: string | null, error: unknown): Line {
  const known = error instanceof SlipdriftError || error instanceof BodyFault;
  if (!known) throw error;
  const errors =
    error instanceof SlipdriftError && error.errors.length > 0
      ? error.errors.map(({ field, message }) => ({ field, message }))
      : [{ field: '', message: error.message }];
  const raw = body.subarray(0, RAW_LOOKED_AT_BYTES).toString('utf8');
  return { line: 1, raw, value: vehicle === null ? undefined : { vehicle }, errors };
}
