import { expect, it } from 'vitest';
import { findMeetings } from './find-meetings.ts';

const at = (clock: string) => new Date(`2027-03-28T${clock}:00Z`);
const inBay = (name: string, bay: number, from: string, to: string) => ({
  name,
  bay,
  startsAt: at(from),
  endsAt: at(to),
});
const namesOf = (...all: ReturnType<typeof inBay>[]) =>
  findMeetings(all).map((pair) => pair.map(({ name }) => name).join(' '));

it('finds every two that have one bay at one moment', () => {
  expect(
    namesOf(
      inBay('c', 1, '10:00', '12:00'),
      inBay('a', 1, '08:00', '11:00'),
      inBay('d', 2, '08:00', '11:00'),
      inBay('b', 1, '08:00', '09:00'),
    ),
  ).toEqual(['a b', 'a c']);
});

it('lets one begin as another ends', () => {
  expect(namesOf(inBay('a', 1, '08:00', '09:00'), inBay('b', 1, '09:00', '10:00'))).toEqual([]);
});
