/** Finds the place of a name among some, from its bytes, without making text of it; -1 for any other name. */
export function findKeys(names: readonly string[]): (bytes: Uint8Array, from: number, to: number) => number {
  const known = names.map((name) => Buffer.from(name));
  const { places, factor } = spread(known);
  return (bytes, from, to) => {
    const place = places[hash(bytes, from, to, factor) & (places.length - 1)] ?? -1;
    const name = known[place];
    if (name === undefined || name.length !== to - from) return -1;
    for (let i = 0; i < name.length; i++) if (name[i] !== bytes[from + i]) return -1;
    return place;
  };
}

function hash(bytes: Uint8Array, from: number, to: number, factor: number): number {
  let sum = to - from;
  for (let i = from; i < to; i++) sum = (Math.imul(sum, factor) + (bytes[i] ?? 0)) | 0;
  return (sum ^ (sum >>> 7)) >>> 0;
}

/** A factor by which no two of the names fall on the same place of a table. */
function spread(names: readonly Uint8Array[]): { places: Int8Array; factor: number } {
  for (let size = 64; ; size *= 2)
    for (let factor = 3; factor < 1000; factor += 2) {
      const places = new Int8Array(size).fill(-1);
      const isFree = names.every((name, i) => {
        const at = hash(name, 0, name.length, factor) & (size - 1);
        if (places[at] !== -1) return false;
        places[at] = i;
        return true;
      });
      if (isFree) return { places, factor };
    }
}
