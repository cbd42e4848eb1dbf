import { z } from 'zod';
import {
  bayPlan,
  bayPlanQuery,
  booking,
  bookingCancel,
  bookingDone,
  bookingList,
  bookingMove,
  bookingPutOff,
  bookingRequest,
  bookingsQuery,
  bookingsReply,
} from '#server/contract/bookings.ts';
import { bookVehicles } from '#server/services/bookings/book-vehicles.ts';
import { bookingsAsCsv } from '#server/services/bookings/bookings-as-csv.ts';
import { cancelBooking, closeBooking, putOffBooking } from '#server/services/bookings/close-booking.ts';
import { getBayPlan } from '#server/services/bookings/get-bay-plan.ts';
import { listBookings } from '#server/services/bookings/list-bookings.ts';
import { moveBooking } from '#server/services/bookings/move-booking.ts';
import { readBooking } from '#server/services/bookings/read-booking.ts';
import { answerCsv, csvAnswer } from './answer-csv.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';
import { readBody } from './read-body.ts';

const params = z.object({ id: z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER) });
const changed = { description: 'The booking as it is now', ...asJson(booking) };

const list = newCall('readFleet', {
  method: 'get',
  path: '/api/bookings',
  summary: 'Bookings, from today on unless other days are named; those put off, which have none, at the end',
  request: { query: bookingsQuery },
  responses: { 200: { description: 'By day', ...asJson(bookingList) }, ...problems(400) },
});
const csv = newCall('readFleet', {
  method: 'get',
  path: '/api/bookings.csv',
  summary: 'The same as CSV',
  request: { query: bookingsQuery },
  responses: { 200: csvAnswer, ...problems(400) },
});
const plan = newCall('readFleet', {
  method: 'get',
  path: '/api/bay-plan',
  summary: 'Depots with their days, bookings and load, and what waits for a day',
  request: { query: bayPlanQuery },
  responses: { 200: { description: 'The bay plan', ...asJson(bayPlan) }, ...problems(400) },
});
const book = newCall('plan', {
  method: 'post',
  path: '/api/bookings',
  summary: 'Book vehicles',
  description:
    'One object, or an array of at most 1000. One alone is booked or refused; of an array each is booked or refused by itself.',
  request: { body: { required: true, ...asJson(z.union([bookingRequest, z.array(bookingRequest)])) } },
  responses: {
    200: { description: 'What was booked, and what was not', ...asJson(bookingsReply) },
    ...problems(400, 409, 413, 415, 503),
  },
});
const one = newCall('readFleet', {
  method: 'get',
  path: '/api/bookings/{id}',
  summary: 'One booking, also one that is closed',
  request: { params },
  responses: { 200: { description: 'The booking', ...asJson(booking) }, ...problems(400, 404) },
});
const move = newCall('plan', {
  method: 'patch',
  path: '/api/bookings/{id}',
  summary: 'Move a booking, or change its length or note',
  request: { params, body: { required: true, ...asJson(bookingMove) } },
  responses: { 200: changed, ...problems(400, 404, 409) },
});
const putOff = newCall('plan', {
  method: 'post',
  path: '/api/bookings/{id}/put-off',
  summary: 'Put a booking off: it waits for another day',
  request: { params, body: { required: true, ...asJson(bookingPutOff) } },
  responses: { 200: changed, ...problems(400, 404, 409) },
});
const cancel = newCall('plan', {
  method: 'post',
  path: '/api/bookings/{id}/cancel',
  summary: 'Cancel a booking',
  request: { params, body: { required: true, ...asJson(bookingCancel) } },
  responses: { 200: changed, ...problems(400, 404, 409) },
});
const done = newCall('plan', {
  method: 'post',
  path: '/api/bookings/{id}/done',
  summary: 'Say that the vehicle was inspected',
  request: { params, body: { required: true, ...asJson(bookingDone) } },
  responses: { 200: changed, ...problems(400, 404, 409) },
});

export function createBookingRoutes() {
  const routes = newRoutes();
  routes.openapi(list, async (c) => c.json(await listBookings(c.var.context, c.req.valid('query')), 200));
  routes.openapi(csv, async (c) =>
    answerCsv(c, 'bookings', await bookingsAsCsv(c.var.context, c.req.valid('query'))),
  );
  routes.openapi(plan, async (c) => c.json(await getBayPlan(c.var.context, c.req.valid('query')), 200));
  // The service checks each element, so that one that is wrong does not stop the others.
  routes.openAPIRegistry.registerPath(book);
  routes.post(book.path, async (c) => c.json(await bookVehicles(c.var.context, await readBody(c)), 200));
  routes.openapi(one, async (c) => c.json(await readBooking(c.var.context, c.req.valid('param').id), 200));
  routes.openapi(move, async (c) =>
    c.json(await moveBooking(c.var.context, c.req.valid('param').id, c.req.valid('json')), 200),
  );
  routes.openapi(putOff, async (c) =>
    c.json(await putOffBooking(c.var.context, c.req.valid('param').id, c.req.valid('json')), 200),
  );
  routes.openapi(cancel, async (c) =>
    c.json(await cancelBooking(c.var.context, c.req.valid('param').id, c.req.valid('json')), 200),
  );
  routes.openapi(done, async (c) =>
    c.json(await closeBooking(c.var.context, c.req.valid('param').id, c.req.valid('json')), 200),
  );
  return routes;
}
