/** What a window, or a piece of one, came to; the odometer is null where none was near enough. */
export interface Draft {
  line: number;
  startUs: number;
  endUs: number;
  /** the clock of the log had gone back before */
  afterRestart: boolean;
  kind: 'steady' | 'open' | 'shifting';
  slipRpm: number;
  fluidC: number | null;
  loadPct: number | null;
  torquePct: number | null;
  throttlePct: number | null;
  speedKmh: number | null;
  gear: number | null;
  shifting: boolean | null;
  codes: string[];
  odometerKm: number | null;
}
