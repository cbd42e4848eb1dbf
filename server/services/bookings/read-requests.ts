import { type BookingRequest, bookingRequest } from '#server/contract/bookings.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';

export type ReadRequest = { faults: FieldError[]; request: null } | { faults: null; request: BookingRequest };

/** One booking as it was sent, or all that is wrong with it. */
export function readRequest(body: unknown): ReadRequest {
  if (typeof body !== 'object' || body === null || Array.isArray(body))
    return { faults: [{ field: '', message: 'must be an object with vehicle and day' }], request: null };
  const faults: FieldError[] = Object.keys(body)
    .filter((field) => !Object.hasOwn(bookingRequest.shape, field))
    .map((field) => ({ field, message: 'is not a known field' }));
  const parsed = bookingRequest.safeParse(body);
  if (parsed.success && faults.length === 0) return { faults: null, request: parsed.data };
  const issues = parsed.success ? [] : parsed.error.issues;
  for (const { path, message } of issues) faults.push({ field: path.map(String).join('.'), message });
  return { faults, request: null };
}

/** One that stands alone is refused as a whole. */
export function readAlone(body: unknown): BookingRequest {
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

/** The vehicle that a booking names, as far as it names one. */
export const unitOf = (body: unknown): string =>
  typeof body === 'object' && body !== null && 'vehicle' in body && typeof body.vehicle === 'string'
    ? body.vehicle.slice(0, 64)
    : '';
