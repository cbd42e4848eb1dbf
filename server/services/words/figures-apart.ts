/** Figures of two things that are set against each other: as few digits as tell them apart, null where none sensible do. */
export type Pair = readonly [string, string];

/** Chances from 0 to 1, never rounded to a certainty that they are not: '62 %', 'over 99 %', '0.3 %'. */
export const chancesApart = (a: number, b: number): Pair | null =>
  tellApart(
    a,
    b,
    [0, 1, 2].map((digits) => (chance: number) => chanceWords(chance, digits)),
  );

export function chanceWords(chance: number, digits = 0): string {
  const percent = (100 * chance).toFixed(digits);
  const least = 10 ** -digits;
  if (chance < 1 && Number(percent) >= 100) return `over ${(100 - least).toFixed(digits)} %`;
  if (chance > 0 && Number(percent) <= 0) return `under ${least.toFixed(digits)} %`;
  return `${percent} %`;
}

/** Sums in the fleet's own currency: '3,400', or '5,620' where two figures would be the same. */
export const sumsApart = (a: number, b: number): Pair | null =>
  tellApart(a, b, [sumWords, exactSum(0), exactSum(1), exactSum(2)]);

/** An expected sum, to two figures. */
export function sumWords(sum: number): string {
  const size = Math.abs(sum);
  const unit = size < 100 ? 1 : 10 ** (Math.floor(Math.log10(size)) - 1);
  return exactSum(0)(Math.round(sum / unit) * unit);
}

/** A sum that somebody has entered, as they did. */
export const exactWords = (sum: number): string => sum.toLocaleString('en-US', { maximumFractionDigits: 2 });

/** Slip, '12 rpm' or '12.3 rpm'. */
export const rpmApart = (a: number, b: number): Pair | null =>
  tellApart(
    a,
    b,
    [0, 1, 2].map((digits) => (rpm: number) => `${rpm.toFixed(digits)} rpm`),
  );

const exactSum = (digits: number) => (sum: number) =>
  sum.toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits });

function tellApart(a: number, b: number, ways: readonly ((value: number) => string)[]): Pair | null {
  for (const say of ways) {
    const [first, second] = [say(a), say(b)];
    if (first !== second) return [first, second];
  }
  return null;
}
