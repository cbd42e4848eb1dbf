/** Random numbers from a text seed, the same on every machine: sfc32 (Doty-Humphrey, PractRand; from memory). */
export class RandomSource {
  private a = 0x9e3779b9;
  private b = 0x243f6a88;
  private c = 0xb7e15162;
  private counter = 1;

  constructor(seed: string) {
    for (let i = 0; i < seed.length; i++) {
      const code = seed.charCodeAt(i);
      this.a = Math.imul(this.a ^ code, 597399067);
      this.b = Math.imul(this.b ^ (code + this.a), 2869860233 | 0);
      this.c = Math.imul(this.c ^ (code + (this.b >>> 7)), 951274213);
    }
    for (let i = 0; i < 20; i++) this.uniform();
  }

  /** 0 or more, below 1. */
  uniform(): number {
    const t = (((this.a + this.b) | 0) + this.counter) | 0;
    this.counter = (this.counter + 1) | 0;
    this.a = this.b ^ (this.b >>> 9);
    this.b = (this.c + (this.c << 3)) | 0;
    this.c = (((this.c << 21) | (this.c >>> 11)) + t) | 0;
    return (t >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }

  /** Whole number, both ends included. */
  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.uniform());
  }

  happens(share: number): boolean {
    return this.uniform() < share;
  }

  pick<T>(items: readonly T[]): T {
    const item = items[Math.floor(items.length * this.uniform())];
    if (item === undefined) throw new Error('pick requires at least one item');
    return item;
  }

  /** Box and Muller 1958; the sine half is thrown away so that no state but the generator's is kept. */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.uniform())) * Math.cos(2 * Math.PI * this.uniform());
  }

  /** Student's t with 4 degrees of freedom brought to variance 1: a sensor's heavier tails. */
  heavyTailed(): number {
    const halfChiSquare4 = -Math.log((1 - this.uniform()) * (1 - this.uniform()));
    return this.normal() / Math.sqrt(halfChiSquare4);
  }
}
