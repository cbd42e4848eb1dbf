import { useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { BayPlan, Booking } from '#server/contract/bookings.ts';
import { useMoveBooking } from '#web/api/use-bookings.ts';
import { type Draft, useProposal } from '#web/api/use-plan.ts';
import { type Carried, createCarry } from './carry.ts';
import { findRoom, type Room } from './find-room.ts';
import { type Item, listTaken } from './plan-items.ts';
import type { Place } from './plan-search.ts';
import { sayPlace } from './say-place.ts';
import { useInspectionHours } from './use-inspection-hours.ts';

export interface Question {
  vehicle: string;
  /** names of depots */
  from: string;
  to: string;
  onYes: () => void;
}

interface Context {
  plan: BayPlan;
  drafts: readonly Draft[];
  /** for those who look with their ears */
  say: (words: string) => void;
  /** what could not be done */
  complain: (title: string, error?: unknown) => void;
  /** takes away what was complained of: it is about to be otherwise */
  settle: () => void;
  /** before a booking goes to another depot */
  ask: (question: Question) => void;
}

type Span = Pick<Room & { fits: true }, 'from' | 'to'>;

/** Takes something up, looks for its place, and puts it down: a booking with the server, a proposal in the proposal. */
export function usePlanHand(context: Context) {
  const [carry] = useState(createCarry);
  const { mutateAsync } = useMoveBooking();
  const { changeDrafts } = useProposal();
  const hoursOf = useInspectionHours();
  const latest = useRef({ ...context, hoursOf, mutateAsync, changeDrafts });
  useLayoutEffect(() => {
    latest.current = { ...context, hoursOf, mutateAsync, changeDrafts };
  });
  return useMemo(() => {
    const nameOf = (depot: string) =>
      latest.current.plan.depots.find(({ id }) => id === depot)?.name ?? depot;
    const lengthOf = ({ of }: Item) => of.hours ?? latest.current.hoursOf(of.platform);

    function lookFor(item: Item, place: Place): Room {
      const { plan, drafts } = latest.current;
      const depot = plan.depots.find(({ id }) => id === place.depot);
      if (depot === undefined) return { fits: false, why: 'this depot is not shown' };
      const wish = { hours: lengthOf(item), from: item.of.from, key: item.key };
      return findRoom(depot, place, wish, listTaken(plan.bookings, drafts), plan.now);
    }

    function begin(item: Item, by: Carried['by'], place: Place | null): void {
      latest.current.settle();
      carry.set({ item, by, place, room: place === null ? null : lookFor(item, place) });
      if (by === 'keys')
        latest.current.say(
          `${item.of.vehicle} taken up. Arrows go through bays and days, Enter puts it down, Escape gives up.`,
        );
    }

    function aim(place: Place | null): void {
      const carried = carry.get();
      if (carried === null || isSamePlace(carried.place, place)) return;
      const room = place === null ? null : lookFor(carried.item, place);
      carry.set({ ...carried, place, room });
      if (carried.by === 'keys' && place !== null && room !== null)
        latest.current.say(
          `${sayPlace(place, nameOf(place.depot))}: ${room.fits ? `from ${room.from}` : room.why}`,
        );
    }

    function giveUp(): void {
      const carried = carry.get();
      carry.set(null);
      if (carried?.by === 'keys')
        latest.current.say(`Given up: ${carried.item.of.vehicle} stays where it was.`);
    }

    /** Whether it lies somewhere else now; `onPut` is called once it does, which may be after a question. */
    function put(onPut?: () => void): boolean {
      const carried = carry.get();
      if (carried === null) return false;
      const { item, place, room } = carried;
      const { vehicle } = item.of;
      if (place === null || room === null) {
        giveUp();
        return false;
      }
      if (!room.fits) {
        if (carried.by === 'keys') {
          latest.current.say(`Not here: ${room.why}.`);
          return false;
        }
        carry.set(null);
        latest.current.complain(
          `${vehicle} stays where it was: ${sayPlace(place, nameOf(place.depot))} has no place for it, ${room.why}.`,
        );
        return false;
      }
      carry.set(null);
      if (isSamePlace(toPlace(item), place) && item.of.from === room.from) {
        latest.current.say(`${vehicle} put back where it was.`);
        return false;
      }
      if (item.kind === 'booking' && place.depot !== item.of.depot) {
        const [from, to] = [nameOf(item.of.depot), nameOf(place.depot)];
        latest.current.ask({ vehicle, from, to, onYes: () => putDown(item, place, room, onPut) });
        return false;
      }
      putDown(item, place, room, onPut);
      return true;
    }

    function putDown(item: Item, place: Place, room: Span, onPut?: () => void): void {
      const { vehicle } = item.of;
      onPut?.();
      latest.current.say(`${vehicle} put down: ${sayPlace(place, nameOf(place.depot))}, from ${room.from}.`);
      if (item.kind === 'draft')
        latest.current.changeDrafts((draft) =>
          draft.vehicle === vehicle
            ? { ...draft, ...place, from: room.from, to: room.to, moved: true, refused: null, ticked: true }
            : draft,
        );
      else moveBooking(item.of, place, room);
    }

    function moveBooking(booking: Booking, place: Place, room: Span): void {
      const hours = booking.hours ?? latest.current.hoursOf(booking.platform);
      const shown: Booking = {
        ...booking,
        ...place,
        from: room.from,
        to: room.to,
        hours,
        state: 'booked',
        past: false,
      };
      const move = { ...place, from: room.from, ...(booking.hours === null ? { hours } : {}) };
      latest.current
        .mutateAsync({ booking, shown, move })
        .catch((error) => latest.current.complain(`${booking.vehicle} was put back where it was.`, error));
    }

    return { carry, begin, aim, put, giveUp };
  }, [carry]);
}
export type PlanHand = ReturnType<typeof usePlanHand>;

export const toPlace = ({ of: { depot, day, bay } }: Item): Place | null =>
  day === null || bay === null ? null : { depot, day, bay };

export const isSamePlace = (a: Place | null, b: Place | null): boolean =>
  a === b || (a !== null && b !== null && a.depot === b.depot && a.day === b.day && a.bay === b.bay);
