import type { CanSummary, Doubt } from '#server/contract/looks.ts';
import type { FollowedLog } from './follow-log.ts';
import type { FoundVehicle } from './read-can-log.ts';
import { sayNoReading } from './say-no-reading.ts';

/** A clock without a battery begins anew at some round date long ago. */
const CLOCK_DOUBTED_S = Date.UTC(2010, 0, 1) / 1000;

const plural = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** What whoever knows the vehicle should look at before a log is taken in. */
export function listLogDoubts(
  log: FollowedLog,
  can: CanSummary,
  { given, found, vins }: { given: string | null; found: FoundVehicle; vins: readonly string[] },
): Doubt[] {
  const ofVehicle: string[] = [];
  const ofTime: string[] = [];
  const ofLog: string[] = [];

  if (given === null && found.vehicle !== null && !found.isKnown)
    ofVehicle.push(
      `No vehicle has the VIN ${found.vehicle} yet: a new one is made, with the VIN as its name.`,
    );
  if (given !== null && found.vehicle !== null && found.isKnown && found.vehicle !== given)
    ofVehicle.push(`The VIN in the log is that of ${found.vehicle}, not of ${given}.`);
  if (given !== null && vins.length > 1)
    ofVehicle.push(
      `The log has several VINs: ${vins.slice(0, 10).join(', ')}. All of it is taken for ${given}.`,
    );
  for (const { vin, source, warning } of can.vins)
    if (warning !== null) ofVehicle.push(`The VIN ${vin} from address ${source} ${warning}`);

  if (can.clock === 'since_1970' && can.first_s !== null && can.first_s < CLOCK_DOUBTED_S)
    ofTime.push(
      `The log says that it began on ${new Date(can.first_s * 1000).toISOString().slice(0, 10)}: was the clock of the logger set?`,
    );
  const restarts = log.fold.restarts();
  if (restarts > 0)
    ofTime.push(
      `The clock of the log goes back ${plural(restarts, 'time', 'times')}.${
        can.clock === 'from_start'
          ? ' What comes after cannot be dated and is refused; bring it by itself, with its own start.'
          : ''
      }`,
    );

  if (can.windows.steady_lockup + can.windows.not === 0) ofLog.push(sayNoReading(log));
  ofLog.push(...sayBuses(log), ...sayOdometers(log));
  const { tooShort, noState, noSpeeds } = log.fold.without;
  if (tooShort > 0)
    ofLog.push(
      `${plural(tooShort, 'piece', 'pieces')} between two changes of the lockup, or at the end, shorter than ${log.fold.shortestS} s: left out.`,
    );
  if (noState > 0)
    ofLog.push(`${plural(noState, 'window', 'windows')} in which the lockup was not known: left out.`);
  if (noSpeeds > 0)
    ofLog.push(
      `${plural(noSpeeds, 'window', 'windows')} in which engine and input shaft speed were not there within 100 ms: left out.`,
    );
  return [
    ...ofVehicle.map((message) => ({ about: 'vehicle' as const, column: null, message })),
    ...ofTime.map((message) => ({ about: 'time' as const, column: null, message })),
    ...ofLog.map((message) => ({ about: 'log' as const, column: null, message })),
  ];
}

function sayBuses(log: FollowedLog): string[] {
  const names = log.busNames();
  const tracks = log.tracks();
  const twice = tracks.filter(
    (one) =>
      one.isUsed &&
      tracks.some(
        ({ name, source, bus, valid }) =>
          name === one.name && source === one.source && bus !== one.bus && valid > 0,
      ),
  );
  if (twice.length === 0) return [];
  const read = [...new Set(twice.map(({ bus }) => names[bus] ?? ''))];
  return [
    `Signals came on more than one of ${names.join(', ')} from the same address; they are read from ${read.join(' and ')} alone.`,
  ];
}

function sayOdometers(log: FollowedLog): string[] {
  const odometers = log
    .tracks()
    .filter(({ name, valid }) => (name === 'distance' || name === 'preciseDistance') && valid > 0);
  const used = odometers.find(({ isUsed }) => isUsed);
  if (used === undefined)
    return ['The log has no odometer: its readings are refused until one is filled in.'];
  const others = odometers.filter(({ bus, isUsed }) => !isUsed && bus === used.bus);
  if (others.length === 0) return [];
  const say = ({ signal, source, high }: (typeof odometers)[number]) =>
    `${Math.round(high).toLocaleString('en')} km from address ${source} (SPN ${signal.spn})`;
  return [`Odometers: ${say(used)}, which is read; ${others.map(say).join(', ')}.`];
}
