import type { BookingsReply } from '#server/contract/bookings.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError, toSlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { bookVehicle } from './book-vehicle.ts';
import { readAlone, readRequest, unitOf } from './read-requests.ts';
import { InDoubt } from './store-or-doubt.ts';

const MOST_AT_ONCE = 1000;
const CONFIRM_EVERY_MS = 2000;

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
 * planners who accept the same proposal never wait in a circle. What is booked already must be told, so that an end on
 * the way is an answer and no problem.
 */
async function bookEach(ctx: Context, bodies: readonly unknown[]): Promise<BookingsReply> {
  const reply: BookingsReply = { booked: [], refused: [] };
  let confirmedMs = performance.now();
  let ended: string | null = null;
  for (const [i, body] of bodies.entries()) {
    const refused = ([fault]: readonly FieldError[]) => {
      const { field = '', message = 'is not right' } = fault ?? {};
      reply.refused.push({ line: i + 1, vehicle: unitOf(body), field, message });
    };
    const { faults, request } = readRequest(body);
    if (ended !== null) refused([{ field: '', message: `was not tried: ${ended}` }]);
    else if (faults !== null) refused(faults);
    else
      try {
        if (performance.now() - confirmedMs > CONFIRM_EVERY_MS) {
          await ctx.actor.confirm?.();
          confirmedMs = performance.now();
        }
        reply.booked.push(await bookVehicle(ctx, request));
      } catch (error) {
        const known = toSlipdriftError(error);
        if (known.errors.length > 0) refused(known.errors);
        else if (reply.booked.length === 0 && !(error instanceof InDoubt)) throw error;
        else {
          ctx.log.warn({ err: error }, 'an array of bookings broke off');
          ended = sayEnd(error);
          refused([
            { field: '', message: error instanceof InDoubt ? error.message : `was not booked: ${ended}` },
          ]);
        }
      }
  }
  return reply;
}

/** Why those after one that broke off are not tried. */
function sayEnd(error: unknown): string {
  const { code, message } = toSlipdriftError(error);
  if (code === 'storage_unavailable') return 'storage had gone away. Send it again.';
  if (error instanceof SlipdriftError) return message;
  if (code === 'storage_full') return 'storage is full. Make room and send it again.';
  if (code === 'busy') return 'storage has too much at once. Send it again later.';
  return 'something went wrong on our side, and the log says what. Send it again.';
}
