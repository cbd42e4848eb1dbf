/** Up to here 4-byte floats are told apart by their whole numbers and decimals. */
const PLAIN_BELOW = 8_388_608;
const LEAST = 0.01;
const SCALES = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7];

/**
 * The shortest decimal that stands for a 4-byte float and no other, as PostgreSQL prints it: 12.3, not 12.300000190734863.
 * Where it lies half way between two decimals, the even one. All products are exact in a number.
 */
export function toShortestReal(real: number): number {
  const size = Math.abs(real);
  if (size < PLAIN_BELOW && size > LEAST)
    for (const scale of SCALES) {
      const rounded = roundToEven(real * scale) / scale;
      if (Math.fround(rounded) === real) return rounded;
    }
  for (let digits = 1; digits <= 9; digits++) {
    const rounded = Number(real.toPrecision(digits));
    if (Math.fround(rounded) === real && !isHalfWay(rounded, real)) return rounded;
  }
  return real;
}

function roundToEven(value: number): number {
  const floor = Math.floor(value);
  const rest = value - floor;
  if (rest !== 0.5) return rest < 0.5 ? floor : floor + 1;
  return floor % 2 === 0 ? floor : floor + 1;
}

/** To the next 4-byte float: stands for neither of the two. */
const isHalfWay = (decimal: number, real: number): boolean =>
  2 * Math.abs(decimal - real) === 2 ** (Math.floor(Math.log2(Math.abs(real))) - 23);
