/**
 * Seeded random numbers: xoshiro128** (Blackman and Vigna, "Scrambled linear pseudorandom number generators",
 * ACM TOMS 47(4), 2021). The four words of state come from the seed text by FNV-1a (RFC 9923) and the finaliser
 * of MurmurHash3. Each vehicle and purpose has its own stream, so that one more draw in one place moves no other.
 */
export class Random {
  private a: number;
  private b: number;
  private c: number;
  private d: number;
  private spare = Number.NaN;

  constructor(seed: string | readonly [number, number, number, number]) {
    if (typeof seed !== 'string') {
      [this.a, this.b, this.c, this.d] = seed;
      return;
    }
    let hash = 0x811c9dc5;
    for (let i = 0; i < seed.length; i++) hash = Math.imul(hash ^ seed.charCodeAt(i), 0x01000193);
    const word = () => {
      hash = (hash + 0x9e3779b9) | 0;
      let mixed = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
      mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
      return mixed ^ (mixed >>> 16);
    };
    this.a = word();
    this.b = word();
    this.c = word();
    this.d = word() | 1;
  }

  uint32(): number {
    const five = Math.imul(this.b, 5);
    const result = Math.imul((five << 7) | (five >>> 25), 9) >>> 0;
    const shifted = this.b << 9;
    this.c ^= this.a;
    this.d ^= this.b;
    this.b ^= this.c;
    this.a ^= this.d;
    this.c ^= shifted;
    this.d = (this.d << 11) | (this.d >>> 21);
    return result;
  }

  /** Uniform in [0, 1). */
  unit(): number {
    return this.uint32() / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.unit();
  }

  integer(low: number, high: number): number {
    return low + Math.floor(this.unit() * (high - low + 1));
  }

  chance(probability: number): boolean {
    return this.unit() < probability;
  }

  /** Normal by the polar method of Marsaglia and Bray (SIAM Review 6, 1964). */
  normal(mean: number, sd: number): number {
    if (!Number.isNaN(this.spare)) {
      const kept = this.spare;
      this.spare = Number.NaN;
      return mean + sd * kept;
    }
    let x = 0;
    let y = 0;
    let square = 0;
    do {
      x = 2 * this.unit() - 1;
      y = 2 * this.unit() - 1;
      square = x * x + y * y;
    } while (square >= 1 || square === 0);
    const scale = Math.sqrt((-2 * Math.log(square)) / square);
    this.spare = y * scale;
    return mean + sd * x * scale;
  }

  exponential(mean: number): number {
    return -mean * Math.log(1 - this.unit());
  }

  weibull(shape: number, scale: number): number {
    return scale * (-Math.log(1 - this.unit())) ** (1 / shape);
  }

  pick<T>(list: readonly T[]): T {
    const chosen = list[Math.floor(this.unit() * list.length)];
    if (chosen === undefined) throw new Error('pick requires a list that is not empty');
    return chosen;
  }

  shuffle<T>(list: readonly T[]): T[] {
    const keyed = list.map((value) => ({ value, key: this.unit() }));
    return keyed.sort((one, other) => one.key - other.key).map(({ value }) => value);
  }
}
