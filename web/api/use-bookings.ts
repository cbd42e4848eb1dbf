import { type QueryClient, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type {
  BayPlan,
  Booking,
  BookingMove,
  BookingRequest,
  BookingsReply,
} from '#server/contract/bookings.ts';
import { getJson } from './get-json.ts';
import { placeBooking } from './place-booking.ts';
import { sendJson } from './send-json.ts';
import { bayPlanKeys } from './use-bay-plan.ts';
import { digestKeys } from './use-digest.ts';
import { rankingKeys } from './use-ranking.ts';
import { vehicleKeys } from './use-vehicle.ts';

type Change<T> = { booking: Booking } & T;
export type Move = Omit<BookingMove, 'version'> & Partial<Pick<BookingMove, 'version'>>;
export type Closing = { how: 'put-off' | 'cancel' | 'done'; reason?: string; leaves_hold?: boolean };

const bookingKeys = { all: ['booking'] as const };

/** One booking, closed ones too: for what the plan does not show. */
export const useBooking = (id: number | undefined) =>
  useQuery({
    queryKey: [...bookingKeys.all, id],
    queryFn: ({ signal }) => getJson<Booking>(`/bookings/${id}`, {}, signal),
    enabled: id !== undefined,
    staleTime: 0,
  });

/** One change after the other, so that each names the version that the one before it made. */
export const bookingsChange = { mutationKey: ['bookings'], scope: { id: 'bookings' } };

/**
 * Moves a booking at once, and puts it back where the server refuses. It is moved from the version that was seen, which is
 * the one on the screen when it is sent unless the move names it.
 */
export function useMoveBooking() {
  const client = useQueryClient();
  return useMutation({
    ...bookingsChange,
    mutationFn: ({ booking, move }: Change<{ move: Move; shown: Booking }>) =>
      sendJson<Booking>('PATCH', `/bookings/${booking.id}`, { version: versionOf(client, booking), ...move }),
    onMutate: async ({ shown }) => {
      await client.cancelQueries({ queryKey: bayPlanKeys.all });
      showBooking(client, shown);
    },
    onError: (_error, { booking }) => showBooking(client, booking),
    onSuccess: (moved) => showBooking(client, moved),
    onSettled: (_data, _error, { booking }) => lookAtBookingsAgain(client, [booking.vehicle]),
  });
}

/** Puts off, cancels or closes a booking. */
export function useCloseBooking() {
  const client = useQueryClient();
  return useMutation({
    ...bookingsChange,
    mutationFn: ({ booking, how, ...rest }: Change<Closing>) =>
      sendJson<Booking>('POST', `/bookings/${booking.id}/${how}`, {
        ...rest,
        version: versionOf(client, booking),
      }),
    onSuccess: (closed) => showBooking(client, closed),
    onSettled: (_data, _error, { booking }) => lookAtBookingsAgain(client, [booking.vehicle]),
  });
}

/** Books some vehicles, each by itself: one that is refused does not stop the others. */
export function useBook() {
  const client = useQueryClient();
  return useMutation({
    ...bookingsChange,
    mutationFn: (requests: readonly BookingRequest[]) =>
      sendJson<BookingsReply>('POST', '/bookings', requests),
    onSuccess: ({ booked }) => {
      for (const one of booked) showBooking(client, one);
    },
    onSettled: (_data, _error, requests) =>
      lookAtBookingsAgain(
        client,
        requests.map(({ vehicle }) => vehicle),
      ),
  });
}

export function showBooking(client: QueryClient, booking: Booking): void {
  client.setQueriesData<BayPlan>({ queryKey: bayPlanKeys.all }, (plan) =>
    plan === undefined ? plan : placeBooking(plan, booking),
  );
}

function versionOf(client: QueryClient, booking: Booking): number {
  for (const [, plan] of client.getQueriesData<BayPlan>({ queryKey: bayPlanKeys.all })) {
    const lists = plan === undefined ? [] : [...plan.bookings, ...plan.put_off, ...plan.past];
    const shown = lists.find(({ id }) => id === booking.id);
    if (shown !== undefined) return shown.version;
  }
  return booking.version;
}

/** Has what follows from bookings asked again; nobody waits for it. */
export function lookAtBookingsAgain(client: QueryClient, vehicles: readonly string[]): void {
  const followers = [bookingKeys.all, rankingKeys.all, digestKeys.all, ...vehicles.map(vehicleKeys.all)];
  for (const queryKey of followers) void client.invalidateQueries({ queryKey });
  // The plan of the server lacks what is still to be sent, and would throw it back.
  const isLast = client.isMutating({ mutationKey: bookingsChange.mutationKey }) <= 1;
  if (isLast) void client.invalidateQueries({ queryKey: bayPlanKeys.all });
}
