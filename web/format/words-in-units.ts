import { fahrenheitFromCelsius, kmFromMiles } from '#server/contract/units.ts';
import { toReaderDistance } from './format-km.ts';
import { formatTenths, formatWhole, roundToEstimate } from './format-number.ts';
import type { Units } from './units.ts';

const figure = String.raw`[−-]?\d[\d,]*(?:\.\d+)?`;
const rate = new RegExp(String.raw`(\+?)(${figure}) rpm per 1,000 km\b`, 'g');
const distance = new RegExp(String.raw`(?:(${figure})( to | and |–))?(${figure}) km\b(?!/)`, 'g');
const speed = new RegExp(String.raw`(${figure}) km/h`, 'g');
const temperature = new RegExp(String.raw`(?:(${figure})( to | and |–))?(${figure}) (?:degC|°C)`, 'g');

const numberOf = (text: string): number => Number(text.replaceAll(',', '').replace('−', '-'));

/** A server's sentence, written in km and degC, with its figures in the reader's units. */
export function putInUnits(text: string, units: Units): string {
  let words = text;
  if (units.distance === 'mi') {
    const each = (km: string) => keepDigits(km, toReaderDistance(numberOf(km), units));
    words = words
      .replace(rate, (_, sign: string, value: string) => {
        const rpm = kmFromMiles(numberOf(value));
        return `${sign}${Math.abs(rpm) < 10 ? formatTenths(rpm) : formatWhole(rpm)} rpm per 1,000 mi`;
      })
      .replace(distance, (_, low: string | undefined, joint: string | undefined, high: string) =>
        low === undefined ? `${each(high)} mi` : `${each(low)}${joint}${each(high)} mi`,
      )
      .replace(speed, (_, value: string) => `${each(value)} mph`);
  }
  const inDegrees = (celsius: string) =>
    formatWhole(units.temperature === 'F' ? fahrenheitFromCelsius(numberOf(celsius)) : numberOf(celsius));
  return words.replace(temperature, (_, low: string | undefined, joint: string | undefined, high: string) => {
    const span = low === undefined ? inDegrees(high) : `${inDegrees(low)}${joint}${inDegrees(high)}`;
    return `${span} °${units.temperature}`;
  });
}

/** A figure that was rounded in km is an estimate in miles too; one given to the last km stays so. */
function keepDigits(original: string, value: number): string {
  const digits = original.replaceAll(/[,.−-]/g, '');
  const rounded = digits.length > 2 && digits.endsWith('0');
  return formatWhole(rounded ? roundToEstimate(value) : value);
}
