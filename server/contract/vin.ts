/** A vehicle identification number as it is kept, and what may be wrong with it: nothing is refused for that. */
export interface JudgedVin {
  /** in capitals, without spaces, hyphens or points */
  vin: string;
  ok: boolean;
  warning: string | null;
}

const LENGTH = 17;
const CHECK_PLACE = 8;
/** 49 CFR 565.15(c), table IV: A to H are 1 to 8, J to N 1 to 5, P 7, R 9, S to Z 2 to 9; a digit is itself. */
const LETTER_VALUES = 'ABCDEFGH.JKLMN.P.R.STUVWXYZ';
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

export const normaliseVin = (text: string): string => text.toUpperCase().replace(/[\s.-]/g, '');

/** Judges a VIN by its length, its letters and its check digit. */
export function judgeVin(text: string): JudgedVin {
  const vin = normaliseVin(text);
  const warning = warnOf(vin);
  return { vin, ok: warning === null, warning };
}

function warnOf(vin: string): string | null {
  const length = [...vin].length;
  if (length !== LENGTH) return `has ${length} ${length === 1 ? 'character' : 'characters'}; a VIN has 17.`;
  const strange = /[^A-Z0-9]/u.exec(vin)?.[0];
  if (strange !== undefined) return `has '${strange}'; a VIN has only letters and digits.`;
  const letter = /[IOQ]/.exec(vin)?.[0];
  if (letter !== undefined)
    return `has the letter ${letter}, which no VIN has; perhaps ${letter === 'I' ? 1 : 0} was meant.`;
  const digit = computeVinCheck(vin)?.digit;
  if (digit === undefined || digit === vin[CHECK_PLACE]) return null;
  return (
    `has ${vin[CHECK_PLACE]} as its ninth character, where the check digit of North America (49 CFR 565.15) would be ${digit}. ` +
    'A slip of the pen, or a vehicle made for elsewhere: ISO 3779 has no check digit of its own.'
  );
}

/** The sum of values times weights, and the digit it asks for: the rest by 11, 10 written X. Null for what is no VIN. */
export function computeVinCheck(vin: string): { sum: number; digit: string } | null {
  if (!/^[A-HJ-NPR-Z0-9]{17}$/.test(vin)) return null;
  let sum = 0;
  for (const [place, weight] of WEIGHTS.entries()) sum += weight * numberOf(vin[place] ?? '0');
  const rest = sum % 11;
  return { sum, digit: rest === 10 ? 'X' : String(rest) };
}

function numberOf(character: string): number {
  const place = LETTER_VALUES.indexOf(character);
  if (place < 0) return Number(character);
  // The row of 9 begins again at J, and that of S at 2.
  return (place % 9) + 1;
}
