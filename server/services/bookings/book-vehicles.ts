import { type BookingsReply, bookingRequest } from '#server/contract/bookings.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError, toSlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { bookVehicle } from './book-vehicle.ts';

const MOST_AT_ONCE = 1000;

/** Books one object alone, or is refused; or an array, of which each is booked or refused by itself. */
export async function bookVehicles(ctx: Context, body: unknown): Promise<BookingsReply> {
  if (!Array.isArray(body)) return { booked: [await bookVehicle(ctx, readAlone(body))], refused: [] };
  if (body.length > MOST_AT_ONCE)
    throw new SlipdriftError(
      'invalid_request',
      `The body has ${body.length} bookings, but one request may have ${MOST_AT_ONCE}. Nothing was booked; send several.`,
    );
  return bookEach(ctx, body);
}

/**
 * One after the other, each in a transaction of its own: so nobody waits for a bay while they hold another, and two
 * planners who accept the same proposal never wait in a circle.
 */
async function bookEach(ctx: Context, bodies: readonly unknown[]): Promise<BookingsReply> {
  const reply: BookingsReply = { booked: [], refused: [] };
  let lost = false;
  for (const [i, body] of bodies.entries()) {
    const refused = (faults: readonly FieldError[]) => {
      const [{ field, message } = { field: '', message: 'is not right' }] = faults;
      reply.refused.push({ line: i + 1, vehicle: unitOf(body), field, message });
    };
    const read = readRequest(body);
    if (lost) refused([{ field: '', message: 'was not tried, as storage had gone away. Send it again.' }]);
    else if (read.faults !== null) refused(read.faults);
    else
      try {
        reply.booked.push(await bookVehicle(ctx, read.request));
      } catch (error) {
        const known = toSlipdriftError(error);
        if (known.status < 500) refused(known.errors);
        // What is booked already must be told, so that this is an answer and no problem.
        else if (reply.booked.length === 0) throw error;
        else {
          ctx.log.error({ err: error }, 'bookings broke off');
          lost = true;
          refused([
            { field: '', message: 'may be booked or not, as storage went away. Look, and send it again.' },
          ]);
        }
      }
  }
  return reply;
}

type Read =
  | { faults: FieldError[]; request: null }
  | { faults: null; request: ReturnType<typeof bookingRequest.parse> };

function readRequest(body: unknown): Read {
  if (typeof body !== 'object' || body === null || Array.isArray(body))
    return { faults: [{ field: '', message: 'must be an object with vehicle and day' }], request: null };
  const parsed = bookingRequest.safeParse(body);
  const faults = unknownFields(body).map((field) => ({ field, message: 'is not a known field' }));
  if (!parsed.success)
    faults.push(
      ...parsed.error.issues.map(({ path, message }) => ({ field: path.map(String).join('.'), message })),
    );
  return parsed.success && faults.length === 0
    ? { faults: null, request: parsed.data }
    : { faults, request: null };
}

function readAlone(body: unknown) {
  const { faults, request } = readRequest(body);
  if (faults === null) return request;
  const [first] = faults;
  const named = first === undefined || first.field === '' ? '' : ` '${first.field}'`;
  const more = faults.length > 1 ? ` (and ${faults.length - 1} more)` : '';
  throw new SlipdriftError(
    'invalid_request',
    `The booking is not right:${named} ${first?.message ?? ''}${more}. Nothing was booked.`,
    { errors: faults },
  );
}

const unknownFields = (body: object): string[] =>
  Object.keys(body).filter((field) => !Object.hasOwn(bookingRequest.shape, field));

const unitOf = (body: unknown): string =>
  typeof body === 'object' && body !== null && 'vehicle' in body && typeof body.vehicle === 'string'
    ? body.vehicle.slice(0, 64)
    : '';
