import { milesFromKm } from '#server/contract/units.ts';

/** Units of the reader. */
export type Units = 'metric' | 'imperial';

const group = (value: number) => Math.round(value).toLocaleString('en-US');

/** A reading of the odometer: '203,400 km'. */
export function mileageWords(km: number, units: Units): string {
  const value = units === 'metric' ? km : milesFromKm(km);
  return `${group(Math.round(value / 100) * 100)} ${units === 'metric' ? 'km' : 'mi'}`;
}

/** A way of some kilometres, to two figures or the nearest 100: '9,400 km'. */
export function wayWords(km: number, units: Units): string {
  return `${group(twoFigures(units === 'metric' ? km : milesFromKm(km)))} ${units === 'metric' ? 'km' : 'mi'}`;
}

/** What is nearer than this begins now. */
const SOON_KM = 100;

/** A span ahead: 'in 1,900 to 5,200 km'; 'within 1,200 km' where it begins now. */
export function spanWords(lowKm: number, highKm: number, units: Units): string {
  const [low, high] = [lowKm, highKm].map((km) => twoFigures(units === 'metric' ? km : milesFromKm(km)));
  if ((low ?? 0) < SOON_KM) return `within ${group(high ?? 0)} ${units === 'metric' ? 'km' : 'mi'}`;
  return `in ${group(low ?? 0)} to ${group(high ?? 0)} ${units === 'metric' ? 'km' : 'mi'}`;
}

function twoFigures(value: number): number {
  if (value < 10) return Math.round(value);
  const unit = 10 ** (Math.floor(Math.log10(value)) - 1);
  return Math.round(value / unit) * unit;
}
