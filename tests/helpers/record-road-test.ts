import { seededRandom } from './seeded-random.ts';

export interface RoadTestRow {
  seconds: number;
  throttlePct: number;
  speedKmh: number;
  slipRpm: number;
  dutyPct: number;
  loadPct: number;
  fluidC: number;
  gear: number;
}

export interface RoadTestPlan {
  seed?: number;
  hz?: number;
  seconds?: number;
  /** sound: holds. weak: gives way by some tens of rpm. slips: some 540 rpm at 78 % command, and stays there */
  clutch: 'sound' | 'weak' | 'slips';
  /** seconds that the recorder lost */
  lost?: readonly (readonly [from: number, to: number])[];
}

/** Seconds: pulling away through the gears, cruise over hills, coasting down, cruise again; then from the first cruise. */
const PULL_AWAY_S = 24;
const COAST = { every: 150, from: 100, to: 114 };
const CRUISE_COMMAND = 78;
const SHIFT_S = 0.6;
/** Torque that the clutch carries for each percent of command above the point of touch, Nm, and the slip of what is over. */
const clutches = {
  sound: { nmPerPct: 7.5, rpmPerNm: 2, dragRpm: 14 },
  weak: { nmPerPct: 7.5, rpmPerNm: 2, dragRpm: 75 },
  slips: { nmPerPct: 1.2, rpmPerNm: 4.2, dragRpm: 14 },
} as const;
const TOUCH_PCT = 25;

/**
 * A road test as a recorder would write it: invented, from the torque that the road asks for and that the clutch
 * carries. Shares nothing with the engine.
 */
export function recordRoadTest({
  seed = 1,
  hz = 10,
  seconds = 180,
  clutch,
  lost = [],
}: RoadTestPlan): RoadTestRow[] {
  const { normal } = seededRandom(seed);
  const { nmPerPct, rpmPerNm, dragRpm } = clutches[clutch];
  const rows: RoadTestRow[] = [];
  let command = 0;
  let slip = 900;
  for (let i = 0; i < seconds * hz; i++) {
    const at = i / hz;
    const phase = phaseAt(at);
    const hill = Math.sin((2 * Math.PI * at) / 47);
    const torqueNm = phase === 'coast' ? -30 : phase === 'pull' ? 260 : 175 + 18 * hill;
    const wanted = phase === 'cruise' ? CRUISE_COMMAND : 0;
    command += Math.max(-80 / hz, Math.min(60 / hz, wanted - command));
    const carried = Math.max(0, command - TOUCH_PCT) * nmPerPct;
    const settled =
      phase === 'coast'
        ? -60
        : command < TOUCH_PCT
          ? 700
          : dragRpm + 4 * hill + rpmPerNm * Math.max(0, torqueNm - carried);
    slip += (settled - slip) * Math.min(1, 2.5 / hz);
    const gear = gearAt(at);
    const isShift = gear !== gearAt(at - SHIFT_S);
    if (lost.some(([from, to]) => at >= from && at < to)) continue;
    rows.push({
      seconds: at,
      throttlePct: phase === 'coast' ? 0 : Math.max(0, torqueNm / 7 + 0.4 * normal()),
      speedKmh: Math.min(86, at * 3.6) + 0.2 * normal(),
      slipRpm: slip + (isShift ? 180 : 0) + 2.5 * normal(),
      dutyPct: Math.min(100, Math.max(0, command + 0.3 * normal())),
      loadPct: phase === 'coast' ? 4 : Math.min(100, torqueNm / 3.6 + 1.2 * normal()),
      fluidC: 78 + Math.min(10, at / 30) + 0.1 * normal(),
      gear,
    });
  }
  return rows;
}

const phaseAt = (at: number): 'pull' | 'cruise' | 'coast' => {
  if (at < PULL_AWAY_S) return 'pull';
  const within = at % COAST.every;
  return within >= COAST.from && within < COAST.to ? 'coast' : 'cruise';
};

const gearAt = (at: number): number => 1 + [4, 8, 12, 17, 22].filter((shift) => at >= shift).length;

/** The rows as the CSV of an invented recorder. */
export function writeRoadTest(rows: readonly RoadTestRow[]): string {
  const lines = rows.map((row) =>
    [
      row.seconds.toFixed(3),
      row.throttlePct.toFixed(1),
      row.speedKmh.toFixed(1),
      row.slipRpm.toFixed(1),
      row.dutyPct.toFixed(1),
      row.loadPct.toFixed(1),
      row.fluidC.toFixed(1),
      row.gear,
    ].join(','),
  );
  return ['time_s,throttle_pct,speed_kmh,slip_rpm,duty_pct,load_pct,fluid_c,gear', ...lines, ''].join('\n');
}
