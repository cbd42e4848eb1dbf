import type { Draft } from './draft.ts';

export type PieceKind = Draft['kind'] | 'stale' | 'none';

const summed = ['slip', 'fluid', 'load', 'engineTorque', 'accelerator', 'roadSpeed'] as const;
export type Summed = (typeof summed)[number];

/** What came within the piece of a window that is open now. */
export function createPiece() {
  const sums = new Float64Array(summed.length);
  const counts = new Uint32Array(summed.length);
  const gears = new Map<number, number>();
  let shifted = -1;

  const place: Record<Summed, number> = {
    slip: 0,
    fluid: 1,
    load: 2,
    engineTorque: 3,
    accelerator: 4,
    roadSpeed: 5,
  };
  const meanOf = (name: Summed): number | null => {
    const i = place[name];
    const count = counts[i] ?? 0;
    return count === 0 ? null : (sums[i] ?? 0) / count;
  };

  const piece = {
    kind: 'none' as PieceKind,
    startUs: 0,
    line: 0,
    begin(kind: PieceKind, startUs: number, line: number): void {
      piece.kind = kind;
      piece.startUs = startUs;
      piece.line = line;
      sums.fill(0);
      counts.fill(0);
      gears.clear();
      shifted = -1;
    },
    add(name: Summed, value: number): void {
      const i = place[name];
      sums[i] = (sums[i] ?? 0) + value;
      counts[i] = (counts[i] ?? 0) + 1;
    },
    addGear(gear: number): void {
      gears.set(gear, (gears.get(gear) ?? 0) + 1);
    },
    /** 1 in process, 0 not, -1 not known: in process at any time says so of the piece */
    noteShift(state: number): void {
      if (state > shifted) shifted = state;
    },
    pairs: (): number => counts[0] ?? 0,
    means: () => ({
      slipRpm: meanOf('slip') ?? Number.NaN,
      fluidC: meanOf('fluid'),
      loadPct: meanOf('load'),
      torquePct: meanOf('engineTorque'),
      throttlePct: meanOf('accelerator'),
      speedKmh: meanOf('roadSpeed'),
      gear: mostFrequent(gears),
      shifting: shifted < 0 ? null : shifted === 1,
    }),
  };
  return piece;
}

/** Of gears that came as often the lower one. */
function mostFrequent(gears: ReadonlyMap<number, number>): number | null {
  let found: number | null = null;
  let most = 0;
  for (const [gear, count] of gears)
    if (count > most || (count === most && found !== null && gear < found)) {
      found = gear;
      most = count;
    }
  return found;
}
