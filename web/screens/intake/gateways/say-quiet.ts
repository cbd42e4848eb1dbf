import type { Gateway } from '#server/contract/intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { saySpan } from '#web/screens/intake/say-span.ts';

/** A gateway that has gone quiet, in a sentence. */
export function sayQuiet(gateway: Gateway, asOf: string): string {
  const { sender, last_at: last, usual_s: usual, vehicles } = gateway;
  const silentS = last === null ? 0 : (Date.parse(asOf) - Date.parse(last)) / 1000;
  const behind = vehicles === 1 ? 'One vehicle reports' : `${formatWhole(vehicles)} vehicles report`;
  return `${sender.name} has brought nothing since ${formatMoment(last)}, ${saySpan(silentS)} ago; it usually delivers every ${sayUsual(usual ?? 0)}. ${behind} through it.`;
}

/** 'hour', '15 minutes': what stands behind every. */
export function sayUsual(seconds: number): string {
  if (seconds < 1) return 'second or more often';
  const words = saySpan(seconds);
  return words.startsWith('1\u00a0') ? words.slice(2) : words;
}
