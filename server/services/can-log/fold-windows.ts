import type { SignalName } from '#server/engine/j1939/signals.ts';
import type { Draft } from './draft.ts';
import { createPiece, type PieceKind } from './piece.ts';

/** Engine and input shaft count as read at the same time within this, and as known no longer. */
const PAIRED_WITHIN_US = 100_000;
/** A state of the transmission, sent every 10 ms, is believed so long. */
const STATE_HOLDS_US = 1_000_000;
const FLUID_HOLDS_US = 10_000_000;
/** At 100 km/h an odometer moves 8 km in it, little against a stretch of 500 km. */
const ODOMETER_HOLDS_US = 300_000_000;
/** Two interfaces may bring their frames a little out of order; a clock that goes back further was set, or begins anew. */
const DISORDER_US = 1_000_000;
/** Silence of the whole bus: a log that was stopped and went on. */
const SILENCE_US = 5_000_000;
/** Pieces shorter than this share of a window, and than this time, make no reading. */
const SHORTEST_SHARE = 0.2;
const SHORTEST_US = 500_000;
const LONG_AGO = Number.NEGATIVE_INFINITY;

/** Pieces that made no reading, by why. */
export interface WithoutReading {
  tooShort: number;
  noState: number;
  noSpeeds: number;
}

export interface FoldOptions {
  windowUs: number;
  codesWithin(fromUs: number, toUs: number): string[];
  emit(draft: Draft): void;
  /** the clock went back; all that came before is over */
  onRestart(lastUs: number): void;
}

/**
 * Folds samples over windows. A window of one state makes one reading; where the state of the lockup changes it is cut.
 * States are: `steady` (engaged, no shift, both speeds fresh), `shifting` (engaged while a shift is in process), `open`
 * (disengaged), and two that make no reading: `stale` (engaged, a speed missing) and `none` (not known).
 */
export function createWindowFold({ windowUs, codesWithin, emit, onRestart }: FoldOptions) {
  const shortestUs = Math.max(SHORTEST_US, windowUs * SHORTEST_SHARE);
  const without: WithoutReading = { tooShort: 0, noState: 0, noSpeeds: 0 };
  const made = { steady: 0, open: 0, shifting: 0 };
  const piece = createPiece();
  /** wait for the first odometer, which is taken for them where it comes soon */
  const waiting: Draft[] = [];
  let nowUs = LONG_AGO;
  let windowEndUs = 0;
  let restarts = 0;
  let lockup = -1;
  let lockupUs = LONG_AGO;
  let shift = -1;
  let shiftUs = LONG_AGO;
  let engineRpm = 0;
  let engineUs = LONG_AGO;
  let turbineRpm = 0;
  let turbineUs = LONG_AGO;
  let isPaired = true;
  let pairUs = LONG_AGO;
  let fluidC = 0;
  let fluidUs = LONG_AGO;
  let odometerKm = 0;
  let odometerUs = LONG_AGO;

  const kindNow = (): PieceKind => {
    if (lockup < 0) return 'none';
    if (lockup === 0) return 'open';
    if (shift === 1) return 'shifting';
    return nowUs - pairUs <= PAIRED_WITHIN_US ? 'steady' : 'stale';
  };

  const endPiece = (endUs: number): void => {
    const lengthUs = endUs - piece.startUs;
    if (lengthUs <= 0) return;
    const { kind } = piece;
    if (lengthUs < shortestUs) {
      if (kind !== 'none' && kind !== 'stale') without.tooShort += 1;
    } else if (kind === 'none') without.noState += 1;
    else if (kind === 'stale' || piece.pairs() === 0) without.noSpeeds += 1;
    else {
      made[kind] += 1;
      release(makeDraft(kind, endUs));
    }
  };

  const makeDraft = (kind: Draft['kind'], endUs: number): Draft => {
    const means = piece.means();
    const fluidHolds = fluidUs >= piece.startUs - FLUID_HOLDS_US;
    return {
      line: piece.line,
      startUs: piece.startUs,
      endUs,
      afterRestart: restarts > 0,
      kind,
      ...means,
      fluidC: means.fluidC ?? (fluidHolds ? fluidC : null),
      codes: codesWithin(piece.startUs, endUs),
      odometerKm: endUs - odometerUs <= ODOMETER_HOLDS_US ? odometerKm : null,
    };
  };

  const release = (draft: Draft): void => {
    if (draft.odometerKm === null && odometerUs === LONG_AGO) waiting.push(draft);
    else emit(draft);
  };

  /** Lets go those that end before `beforeUs`, with the odometer that came meanwhile. */
  const letGo = (beforeUs: number, km: number | null): void => {
    const first = waiting.findIndex((draft) => draft.endUs >= beforeUs);
    for (const draft of waiting.splice(0, first < 0 ? waiting.length : first))
      emit({ ...draft, odometerKm: km });
  };

  const begin = (startUs: number, line: number): void => piece.begin(kindNow(), startUs, line);

  const breakOff = (atUs: number, line: number): void => {
    if (atUs < nowUs) {
      endPiece(nowUs);
      letGo(Number.POSITIVE_INFINITY, null);
      onRestart(nowUs);
      restarts += 1;
      fluidUs = LONG_AGO;
      odometerUs = LONG_AGO;
    } else if (nowUs !== LONG_AGO) endPiece(nowUs);
    lockup = -1;
    shift = -1;
    engineUs = LONG_AGO;
    turbineUs = LONG_AGO;
    pairUs = LONG_AGO;
    isPaired = true;
    nowUs = atUs;
    windowEndUs = atUs + windowUs;
    begin(atUs, line);
  };

  /** What was known and has not been said again ends its piece where it was said last. */
  const forget = (line: number): void => {
    if (nowUs - shiftUs > STATE_HOLDS_US) shift = -1;
    if (lockup >= 0 && nowUs - lockupUs > STATE_HOLDS_US) {
      endPiece(lockupUs);
      lockup = -1;
      begin(Math.max(lockupUs, piece.startUs), line);
    } else if (piece.kind === 'steady' && nowUs - pairUs > PAIRED_WITHIN_US) {
      endPiece(pairUs);
      begin(Math.max(pairUs, piece.startUs), line);
    }
  };

  return {
    /** The time at which the next frame stands. Answers it, as late as the one before where that was a little later. */
    advance(frameUs: number, line: number): number {
      if (frameUs < nowUs - DISORDER_US || frameUs > nowUs + SILENCE_US) breakOff(frameUs, line);
      else if (frameUs > nowUs) nowUs = frameUs;
      forget(line);
      while (nowUs >= windowEndUs) {
        endPiece(windowEndUs);
        begin(windowEndUs, line);
        windowEndUs += windowUs;
      }
      if (waiting.length > 0) letGo(nowUs - ODOMETER_HOLDS_US, null);
      return nowUs;
    },
    set(name: SignalName, value: number): void {
      switch (name) {
        case 'lockupEngaged':
          lockup = value;
          lockupUs = nowUs;
          break;
        case 'shiftInProcess':
          shift = value;
          shiftUs = nowUs;
          break;
        case 'inputShaftSpeed':
          turbineRpm = value;
          turbineUs = nowUs;
          isPaired = false;
          break;
        case 'engineSpeed':
          engineRpm = value;
          engineUs = nowUs;
          break;
        case 'fluidTemperature':
          fluidC = value;
          fluidUs = nowUs;
          piece.add('fluid', value);
          break;
        case 'load':
        case 'accelerator':
        case 'engineTorque':
        case 'roadSpeed':
          piece.add(name, value);
          break;
        case 'currentGear':
          piece.addGear(value);
          break;
        case 'distance':
        case 'preciseDistance':
          if (odometerUs === LONG_AGO) letGo(Number.POSITIVE_INFINITY, value);
          odometerKm = value;
          odometerUs = nowUs;
          break;
      }
    },
    /** After the last signal of a frame: whether the state is another now, and whether there is a pair of speeds. */
    settle(line: number): void {
      const isPair = !isPaired && Math.abs(turbineUs - engineUs) <= PAIRED_WITHIN_US;
      if (isPair) {
        isPaired = true;
        pairUs = nowUs;
      }
      const kind = kindNow();
      if (kind !== piece.kind) {
        endPiece(nowUs);
        begin(nowUs, line);
      }
      piece.noteShift(shift);
      if (isPair) piece.add('slip', engineRpm - turbineRpm);
    },
    /** Not whole: what is open now, or waits for the odometer, will be more when the log comes again, and is left out. */
    end(whole: boolean): void {
      if (!whole) return;
      if (nowUs !== LONG_AGO) endPiece(nowUs);
      letGo(Number.POSITIVE_INFINITY, null);
    },
    made,
    without,
    restarts: (): number => restarts,
    shortestS: shortestUs / 1_000_000,
  };
}
