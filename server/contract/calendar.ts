import { z } from 'zod';
import { plainText } from './readings.ts';
import type { weekdays } from './words.ts';

/** A day of the calendar at some depot, without a time zone. */
export const day = z.iso
  .date({ error: 'must be a day such as 2026-03-04', abort: true })
  .refine((text) => text >= '1900-01-01' && text < '2200-01-01', {
    error: 'must be within the years 1900 to 2199',
  })
  .meta({ description: 'day, YYYY-MM-DD', examples: ['2026-03-04'] });

/** Time of day at a depot. */
export const clock = z
  .string()
  .regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, { error: 'must be a time of day such as 07:30' })
  .meta({ description: 'time of day, HH:MM', examples: ['07:30'] });

export const hours = z
  .object({ from: clock, to: clock })
  .refine(({ from, to }) => from < to, { error: 'must end after they begin', path: ['to'] })
  .meta({ id: 'Hours', description: 'working hours of one day, in the time of the depot' });
export type Hours = z.infer<typeof hours>;

const usual: Hours = { from: '07:00', to: '16:00' };

export const week = z
  .object({
    monday: hours.nullable(),
    tuesday: hours.nullable(),
    wednesday: hours.nullable(),
    thursday: hours.nullable(),
    friday: hours.nullable(),
    saturday: hours.nullable(),
    sunday: hours.nullable(),
  } satisfies Record<(typeof weekdays)[number], z.ZodType>)
  .meta({ id: 'Week', description: 'hours of each weekday; null where nobody works' });
export type Week = z.infer<typeof week>;

/** Assumed where a depot says nothing. */
export const usualWeek: Week = {
  monday: usual,
  tuesday: usual,
  wednesday: usual,
  thursday: usual,
  friday: usual,
  saturday: null,
  sunday: null,
};

const comment = plainText.trim().max(120).default('');

export const specialDay = z
  .object({
    day,
    bays: z
      .int()
      .min(0)
      .max(500)
      .nullable()
      .default(null)
      .meta({ description: 'bays on this day, 0 for a holiday; null for as many as usual' }),
    hours: hours
      .nullable()
      .default(null)
      .meta({ description: 'hours on this day; null for those of its weekday' }),
    note: comment,
  })
  .meta({ id: 'SpecialDay', description: 'a holiday, or another day that differs from its weekday' });
export type SpecialDay = z.output<typeof specialDay>;

/** Each day once, in order. */
export const specialDays = z
  .array(specialDay)
  .max(1000)
  .superRefine((days, context) => {
    const seen = new Set<string>();
    for (const [i, { day: one }] of days.entries()) {
      if (seen.has(one))
        context.addIssue({ code: 'custom', path: [i, 'day'], message: `${one} is named twice` });
      seen.add(one);
    }
  })
  .overwrite((days) => days.toSorted((a, b) => (a.day < b.day ? -1 : 1)));

export const unavailability = z
  .object({ from: day, to: day, note: comment })
  .refine(({ from, to }) => from <= to, { error: 'must not be before from', path: ['to'] })
  .meta({ id: 'Unavailability', description: 'days on which a vehicle cannot be taken, both ends included' });
export type Unavailability = z.output<typeof unavailability>;
