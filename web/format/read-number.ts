export interface NumberRule {
  least: number;
  most: number;
  /** only multiples of it */
  step?: number;
  /** stands after the bounds in words */
  unit?: string;
  /** a comma may stand before decimals, as in 0,85 */
  decimalComma?: boolean;
}

export type NumberRead = { value: number; fault?: undefined } | { value: null; fault: string };

const bound = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 3 });
/** '1,200' stays what it is elsewhere, a thousand and more; '0,850' can only be a part of one. */
const withDecimalComma = /^([+-]?(?:0(?=,\d)|\d+(?=,(?:\d{1,2}|\d{4,})$))),(\d+)$/;
const number = /^[+-]?(\d{1,3}(,\d{3})+|\d+)(\.\d+)?$/;

/** A figure as somebody typed it, '1,200' and '1 200' too, or what is wrong with it. */
export function readNumber(text: string, { least, most, step, unit, decimalComma }: NumberRule): NumberRead {
  const typed = text
    .trim()
    .replaceAll(/[\s\u00a0\u202f]/g, '')
    .replace('−', '-');
  const plain = decimalComma === true ? typed.replace(withDecimalComma, '$1.$2') : typed;
  const after = unit === undefined ? '' : ` ${unit}`;
  if (plain === '') return { value: null, fault: 'A figure is needed.' };
  if (!number.test(plain)) return { value: null, fault: 'This is no number: write it as 1200 or 2.5.' };
  const value = Number(plain.replaceAll(',', ''));
  if (value < least)
    return {
      value: null,
      fault: least === 0 ? 'Not below 0.' : `Not below ${bound.format(least)}${after}.`,
    };
  if (value > most) return { value: null, fault: `Not above ${bound.format(most)}${after}.` };
  if (step !== undefined && !isMultiple(value, step))
    return {
      value: null,
      fault: step === 1 ? 'A whole number is needed.' : `In steps of ${bound.format(step)}${after}.`,
    };
  return { value };
}

const isMultiple = (value: number, step: number): boolean =>
  Math.abs(value / step - Math.round(value / step)) < 1e-9;
