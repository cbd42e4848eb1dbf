/** Metric inside, miles and Fahrenheit at the border. */

/** International mile, exactly 1.609344 km (NIST SP 811, appendix B.8). */
const KM_PER_MILE = 1.609344;

export const kmFromMiles = (miles: number): number => miles * KM_PER_MILE;
export const milesFromKm = (km: number): number => km / KM_PER_MILE;
/** t_C = (t_F - 32) / 1.8 (NIST SP 811, section B.8, exact). */
export const celsiusFromFahrenheit = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
export const fahrenheitFromCelsius = (celsius: number): number => celsius * 1.8 + 32;
