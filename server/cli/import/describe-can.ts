import type { CanSummary } from '#server/contract/looks.ts';

const number = new Intl.NumberFormat('en', { maximumFractionDigits: 2 });
const GROUPS_SHOWN = 10;
const CODES_SHOWN = 20;

/** What a CAN log held, as lines for a person. */
export function describeCan(can: CanSummary): string[] {
  const { lines, frames, first_s: first, last_s: last, clock, windows } = can;
  const span =
    first === null || last === null
      ? ''
      : clock === 'since_1970'
        ? `, ${toMoment(first)} to ${toMoment(last)}`
        : `, from ${first} to ${last} s by a clock of its own`;
  return [
    `  ${number.format(frames)} frames with a 29-bit identifier in ${number.format(lines)} lines${span}`,
    `  windows: ${windows.steady_lockup} of steady lockup, ${windows.not} without, ${windows.without} that make no reading`,
    ...can.signals.map(describeSignal),
    ...can.groups
      .slice(0, GROUPS_SHOWN)
      .map(
        ({ pgn, source, name, frames: n }) =>
          `  group ${pgn} from address ${source}: ${number.format(n)} frames${name === null ? '' : ` (${name})`}`,
      ),
    ...(can.groups.length > GROUPS_SHOWN ? [`  and ${can.groups.length - GROUPS_SHOWN} groups more`] : []),
    ...can.vins.map(({ vin, source }) => `  VIN ${vin} from address ${source}`),
    ...can.codes
      .slice(0, CODES_SHOWN)
      .map(({ code, source, seconds }) => `  ${code} active for ${seconds} s, from address ${source}`),
    ...can.left_out.map(
      ({ why, lines: n, first_line: line, raw }) =>
        `  left out ${number.format(n)}: ${why} (first in line ${line}: ${raw.slice(0, 80)})`,
    ),
  ];
}

function describeSignal(signal: CanSummary['signals'][number]): string {
  const {
    name,
    spn,
    source,
    bus,
    sources,
    valid,
    not_available: notAvailable,
    error,
    low,
    high,
    unit,
  } = signal;
  if (sources.length === 0) return `  ${name} (SPN ${spn}): not in the log`;
  const none = `${number.format(notAvailable)} times not available, ${number.format(error)} an error`;
  if (valid === 0) return `  ${name} (SPN ${spn}): never valid, ${none}`;
  const others = sources.filter((one) => one !== source);
  const also = others.length === 0 ? '' : `, sent by ${others.join(', ')} too`;
  return `  ${name} (SPN ${spn}): ${number.format(valid)} values of address ${source} on ${bus}${also}, ${number.format(low ?? 0)} to ${number.format(high ?? 0)}${unit === '' ? '' : ` ${unit}`}; ${none}`;
}

const toMoment = (seconds: number): string => new Date(seconds * 1000).toISOString();
