import type { PlatformMovement } from '#server/contract/movement.ts';
import { LEAST_VEHICLES } from '#server/engine/platform/estimate-common-movement.ts';
import { dayWords } from '#server/services/words/day-words.ts';
import type { MeasuredSeason } from './measure-season.ts';

const signed = (rpm: number) => `${rpm > 0 ? '+' : ''}${Math.round(rpm)} rpm`;
const month = new Intl.DateTimeFormat('en-GB', { month: 'long', timeZone: 'UTC' });
export const nameMonth = (fromZero: number): string => month.format(Date.UTC(2000, fromZero, 15));

export interface Step {
  at: Date;
  sizeRpm: number;
  vehicles: number;
}

/** '12 May 2026: +25 rpm at once on 71 vehicles; taken out of each vehicle'. */
export const sayEvent = ({ at, sizeRpm, vehicles }: Step): string =>
  `${dayWords(at)}: ${signed(sizeRpm)} at once on ${vehicles} vehicles; taken out of each vehicle`;

export function saySeason(season: MeasuredSeason): string {
  switch (season.state) {
    case 'too_short':
      return 'A season is what comes back: it is looked for once the readings span two years.';
    case 'not_seen':
      return 'No season of 1 rpm or more stands out.';
    case 'measured':
      return `Slip swings by ${Math.round(2 * season.amplitudeRpm)} rpm over a year and is highest in ${nameMonth(season.highestMonth)}; that is part of the common movement and is taken out.`;
  }
}

export interface Meaning {
  state: PlatformMovement['state'];
  hasPlatform: boolean;
  learnedFrom: number;
  events: readonly Step[];
  weeks: readonly { ms: number; rpm: number }[];
}

/** What the common movement means for the inspection list, in one sentence. */
export function sayMeaning({ state, hasPlatform, learnedFrom, events, weeks }: Meaning): string {
  const these = hasPlatform ? 'vehicles of this platform' : 'vehicles without a platform';
  switch (state) {
    case 'not_yet':
      return `Nothing is known of the ${these} together yet: no readings of theirs have been assessed.`;
    case 'too_few_vehicles':
      return `With readings of ${countWords(learnedFrom)}, what moves all ${these} cannot be told from what moves one: ${LEAST_VEHICLES} are needed. Nothing is taken out, so a software update would look like a jump of each vehicle.`;
    case 'too_few_weeks':
      return `The ${these} have too few weeks of readings yet to tell what they do together; nothing is taken out.`;
    case 'learned':
      return sayLearned(these, events, weeks);
  }
}

function sayLearned(these: string, events: Meaning['events'], weeks: Meaning['weeks']): string {
  if (events.length > 0) {
    const [only] = events;
    const steps =
      only !== undefined && events.length === 1
        ? `the step of ${signed(only.sizeRpm)} on ${dayWords(only.at)} is taken out`
        : `the ${events.length} steps are taken out`;
    return `No place on the inspection list rests on what all ${these} did together: ${steps} of every vehicle before it is judged.`;
  }
  const rpms = weeks.map(({ rpm }) => rpm);
  const most = Math.max(...rpms.map(Math.abs));
  const since = weeks[0] === undefined ? '' : ` since ${dayWords(weeks[0].ms)}`;
  const size = most < 1 ? 'less than 1 rpm' : `${Math.ceil(most)} rpm at most`;
  return `All ${these} together have moved by ${size}${since}, with no step: what the inspection list shows is each vehicle's own.`;
}

const countWords = (n: number): string => (n === 1 ? '1 vehicle' : `${n} vehicles`);
