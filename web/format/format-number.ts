const whole = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });
const tenths = new Intl.NumberFormat('en-GB', { minimumFractionDigits: 1, maximumFractionDigits: 1 });

/** What stands where there is no figure; screen readers get words beside it. */
export const noFigure = '–';

/** A true minus sign, and no minus before a zero that rounding made. */
const withSign = (text: string): string =>
  text.startsWith('-') ? (/[1-9]/.test(text) ? `−${text.slice(1)}` : text.slice(1)) : text;

export const formatWhole = (value: number): string => withSign(whole.format(value));
export const formatTenths = (value: number): string => withSign(tenths.format(value));

/** Two figures that carry meaning in an estimate: 1,903 becomes 1,900 and 87,421 becomes 87,000. */
export function roundToEstimate(value: number): number {
  const size = Math.abs(value);
  if (size < 10) return Math.round(value);
  const step = 10 ** (Math.floor(Math.log10(size)) - 1);
  return Math.round(value / step) * step;
}
