/** What is kept of one vehicle at the end of each day: what rank, grade and scores follow from. */
export const dayColumns = [
  /** p of no drift; NaN where it has none */
  'p',
  /** chance that it drifts or has jumped */
  'moving',
  /** larger of the chances past the limit now and within the next 1,000 km */
  'soonChance',
  /** within the horizon of the list */
  'chance',
  'suddenChance',
  'levelRpm',
  'baselineRpm',
  /** trouble codes that name the clutch */
  'codes',
  /** 1 where stretches are too few to say anything */
  'isThin',
  /** days without a reading, below 14 not told */
  'quietDays',
  /** 1 where the word of a shop keeps the list calm */
  'isCalm',
  /** chance within the horizon of the replay, as the list counts it */
  'statedChance',
  /** joined odometer, km; NaN on a day on which it is not in the list */
  'km',
  'life',
  /** what the plain rules look at; NaN where readings are too few */
  'levelPct',
  'riseRpm',
] as const;
export type DayColumn = (typeof dayColumns)[number];

/** The columns of one vehicle, a value for each day. */
export type DayTable = Record<DayColumn, Float64Array>;

export const newDayTable = (days: number): DayTable =>
  Object.fromEntries(dayColumns.map((name) => [name, new Float64Array(days).fill(Number.NaN)])) as DayTable;
