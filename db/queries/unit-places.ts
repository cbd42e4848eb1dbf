const FEW = 64;
const FREE = -1;

/** Unit numbers that have been met, each with a place of its own, in the order in which they came. */
export class UnitPlaces {
  readonly units: string[] = [];
  readonly #placeOf = new Map<string, number>();
  /** places by the hash of their bytes, a free one between runs; twice as many as units, or more */
  #slots = new Int32Array(FEW).fill(FREE);
  #slotted = 0;

  clear(): void {
    this.units.length = 0;
    this.#placeOf.clear();
    this.#slots.fill(FREE);
    this.#slotted = 0;
  }

  of(unit: string): number {
    const known = this.#placeOf.get(unit);
    if (known !== undefined) return known;
    const place = this.units.push(unit) - 1;
    this.#placeOf.set(unit, place);
    return place;
  }

  /** Of a unit number in ASCII, from its bytes: no text is made of one that has been met so. */
  ofBytes(bytes: Buffer, from: number, to: number): number {
    const mask = this.#slots.length - 1;
    let slot = hash(bytes, from, to) & mask;
    for (; ; slot = (slot + 1) & mask) {
      const place = this.#slots[slot] ?? FREE;
      if (place === FREE) break;
      if (isText(this.units[place] ?? '', bytes, from, to)) return place;
    }
    const place = this.of(bytes.toString('latin1', from, to));
    this.#slots[slot] = place;
    this.#slotted++;
    if (this.#slotted * 2 > mask) this.#grow();
    return place;
  }

  #grow(): void {
    const places = this.#slots.filter((place) => place !== FREE);
    this.#slots = new Int32Array(this.#slots.length * 2).fill(FREE);
    const mask = this.#slots.length - 1;
    for (const place of places) {
      const bytes = Buffer.from(this.units[place] ?? '', 'latin1');
      let slot = hash(bytes, 0, bytes.length) & mask;
      while (this.#slots[slot] !== FREE) slot = (slot + 1) & mask;
      this.#slots[slot] = place;
    }
  }
}

function hash(bytes: Buffer, from: number, to: number): number {
  let sum = to - from;
  for (let i = from; i < to; i++) sum = (Math.imul(sum, 31) + (bytes[i] ?? 0)) | 0;
  return (sum ^ (sum >>> 15)) >>> 0;
}

function isText(text: string, bytes: Buffer, from: number, to: number): boolean {
  if (text.length !== to - from) return false;
  for (let i = 0; i < text.length; i++) if (text.charCodeAt(i) !== bytes[from + i]) return false;
  return true;
}
