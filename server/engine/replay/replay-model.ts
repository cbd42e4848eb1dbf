/** Something that the list should have seen coming, in one converter life. */
export interface LifeEvent {
  what: 'failed' | 'reached_limit' | 'confirmed';
  mode: string | null;
  /** on the joined track, km */
  km: number;
  atMs: number;
  /** when anybody could know it, ms: slip at the limit is told on the third stretch there */
  knownMs: number;
}

/** How one life went, as far as the records tell by now. */
export interface LifeCourse {
  life: number;
  /** the earliest, of several */
  event: LifeEvent | null;
  /** how far the life was followed, on the joined track, km */
  lastKm: number;
  /** how far slip of the life has come from its healthy level to the limit by now, 0 to 1; null where nobody can tell */
  risenShare: number | null;
  /** moments at which a shop found no fault in this life, ms */
  clearedMs: readonly number[];
}

/** One vehicle at the end of each day. */
export interface VehicleDays {
  /** on the joined track, km; NaN before its first reading */
  km: ArrayLike<number>;
  life: ArrayLike<number>;
}

/** What askings are held against, of one vehicle. */
export interface AskedOf {
  /** how its lives went */
  courses: readonly LifeCourse[];
  /** end of each day, ms */
  dayEndMs: readonly number[];
  /** kilometres within which something must come of an asking */
  horizonKm: number;
}

/** A time that one inspection was asked for. */
export interface Asking {
  life: number;
  /** numbers of the day on which it began, and of the last day that asked */
  fromDay: number;
  lastDay: number;
  /** where the vehicle stood on these, km */
  fromKm: number;
  lastKm: number;
  /** whether it went on when the days ended */
  isOpen: boolean;
  /** day on which the next one took over, where it went on; null where it was let go, or stood to the end */
  nextDay: number | null;
}

/** What came of an asking. `late`: the life had had its event before. */
export type Verdict = 'found' | 'late' | 'early' | 'needless' | 'undecided';

export interface JudgedAsking extends Asking {
  verdict: Verdict;
  /** km driven since it began, in the same life */
  drivenKm: number;
  /** of a needless one: a shop found nothing, else nothing came */
  isCleared: boolean;
}
