import { fahrenheitFromCelsius, kmFromMiles } from '#server/contract/units.ts';
import type { Missing, Reason } from '#server/engine/assessment/assessment-model.ts';
import type { CodeBook } from '#server/services/codes/code-book.ts';
import { codeWords, sightWords } from './code-words.ts';
import { dayWords } from './day-words.ts';
import { mileageWords, spanWords, type Units, wayWords } from './length-words.ts';

const rpm = (value: number) => `${Math.round(value)} rpm`;

/** Such as `12 rpm per 1,000 km`. */
const rate = (rpmPerKm: number, units: Units) =>
  `${rpm(1000 * rpmPerKm * (units === 'metric' ? 1 : kmFromMiles(1)))} per 1,000 ${units === 'metric' ? 'km' : 'mi'}`;

/** Puts words to a reason, in the reader's units; the meaning of a trouble code is what the list says now. */
export function reasonWords(reason: Reason, units: Units, book: CodeBook): string {
  switch (reason.kind) {
    case 'past_limit':
      return `Slip is ${rpm(reason.slipRpm)}, past the limit of ${rpm(reason.limitRpm)}`;
    case 'risen':
      return `Slip has risen from ${Math.round(reason.fromRpm)} to ${rpm(reason.toRpm)} over ${wayWords(reason.overKm, units)}`;
    case 'reaches_limit':
      return reason.highKm < 100
        ? `The limit of ${rpm(reason.limitRpm)} is reached about now`
        : `The limit of ${rpm(reason.limitRpm)} should be reached ${spanWords(reason.lowKm, reason.highKm, units)}`;
    case 'jumps_reach_limit':
      return `If more such jumps follow, the limit of ${rpm(reason.limitRpm)} is reached ${spanWords(reason.lowKm, reason.highKm, units)}`;
    case 'high_on_arrival':
      return `Slip was high from the first readings: ${rpm(reason.slipRpm)}, where ${rpm(reason.usualRpm)} is usual`;
    case 'jumped':
      return `Slip jumped by ${rpm(reason.byRpm)} at about ${mileageWords(reason.atKm, units)} and has stayed there`;
    case 'band_speaks':
      return `Clearest at ${reason.fromPct} to ${reason.toPct} % command: up ${rpm(reason.riseRpm)}`;
    case 'hotter_worse': {
      const [own, usual] = [reason.rpmPerC, reason.usualRpmPerC].map((value) =>
        (units === 'metric' ? value : value / (fahrenheitFromCelsius(1) - fahrenheitFromCelsius(0))).toFixed(
          1,
        ),
      );
      return `Worse when hot: ${own} rpm for each ${units === 'metric' ? 'degC' : 'degF'}, where ${usual} is usual`;
    }
    case 'accelerating':
      return `The rise is getting steeper: ${rate(reason.nowRpmPerKm, units)} now, ${rate(reason.usualRpmPerKm, units)} on the whole so far`;
    case 'code':
      return `${codeWords(book, reason.code)}, ${sightWords(reason.n, reason.lastMs)}`;
    case 'fell_back':
      return `Slip fell from ${Math.round(reason.fromRpm)} to ${rpm(reason.toRpm)} at about ${mileageWords(reason.atKm, units)} with no work on record`;
    case 'fleet_moved':
      return `All ${reason.vehicles} vehicles of this platform moved by ${reason.rpm > 0 ? '+' : ''}${rpm(reason.rpm)} together; that is taken out`;
    case 'calm':
      return `${reason.outcome === 'declined' ? 'Repair was declined' : 'A shop found no fault'} on ${dayWords(reason.atMs)}: calm until ${mileageWords(reason.untilKm, units)} unless slip rises`;
    case 'no_drift':
      return `Slip has held at ${rpm(reason.slipRpm)} over ${wayWords(reason.overKm, units)}`;
  }
}

/** Puts words to what is missing, and to what that costs. */
export function missingWords(missing: Missing): string {
  switch (missing.kind) {
    case 'few_stretches':
      return `Only ${missing.have} of the ${missing.need} stretches of 500 km that a judgement needs`;
    case 'no_platform':
      return `No platform is set: a limit of ${rpm(missing.limitRpm)} is assumed`;
    case 'no_load':
      return 'The feed has no engine load: slip is compared at the same command (and temperature) only, and intervals are wider';
    case 'no_temperature':
      return 'The feed has no fluid temperature: slip is compared at the same command (and load) only, and intervals are wider';
    case 'quiet':
      return `No readings for ${missing.days} days`;
    case 'small_platform':
      return `The platform has only ${missing.vehicles} vehicles: what moves them all cannot be told from what moves one`;
    case 'short_start':
      return 'The healthy start of this converter was hardly seen: its healthy slip is taken from what is usual on its platform';
    case 'no_usable':
      return 'No reading so far passed the gate for steady lockup';
  }
}
