import { Random } from './random.ts';

interface Phase {
  untilS: number;
  speedKmh: number;
  throttlePct: number;
  dutyPct: number;
}

/** Pull away, three commands held for a while, coast, stop: as a mechanic drives it. Own choice, no source. */
const phases: readonly Phase[] = [
  { untilS: 24, speedKmh: 44, throttlePct: 38, dutyPct: 0 },
  { untilS: 34, speedKmh: 58, throttlePct: 34, dutyPct: 30 },
  { untilS: 78, speedKmh: 63, throttlePct: 30, dutyPct: 55 },
  { untilS: 126, speedKmh: 68, throttlePct: 32, dutyPct: 72 },
  { untilS: 200, speedKmh: 72, throttlePct: 35, dutyPct: 86 },
  { untilS: 214, speedKmh: 55, throttlePct: 0, dutyPct: 40 },
  { untilS: 240, speedKmh: 0, throttlePct: 0, dutyPct: 0 },
];

const ROWS_PER_S = 10;
/** How fast command, throttle and speed go over to the next phase: the share of the way left after a second. */
const LEFT_AFTER_1S = 0.45;
const header = 'time_s,throttle_pct,speed_kmh,slip_rpm,duty_pct,load_pct,fluid_c,gear';

/** A recorded road test of some four minutes on a clutch that slips so much at 85 % command, rpm, as CSV. */
export function writeRoadTest({ seed, slipRpm }: { seed: string; slipRpm: number }): string {
  const random = new Random(`${seed}|road test`);
  const left = LEFT_AFTER_1S ** (1 / ROWS_PER_S);
  const lines = [header];
  let [speed, throttle, duty, slip, wander] = [0, 20, 0, 650, 0];
  let row = 0;
  for (const { untilS, speedKmh, throttlePct, dutyPct } of phases)
    for (; row < untilS * ROWS_PER_S; row++) {
      const follow = (from: number, to: number) => to + (from - to) * left;
      speed += Math.max(-0.35, Math.min(0.25, (speedKmh - speed) * 0.03));
      throttle = follow(throttle, throttlePct);
      duty = follow(duty, dutyPct);
      wander = 0.98 * wander + random.normal(0, 0.006);
      slip = follow(slip, slipAt(duty, throttle, slipRpm) * (1 + wander));
      const time = row / ROWS_PER_S;
      lines.push(
        [
          time.toFixed(1),
          Math.max(0, throttle + random.normal(0, 0.3)).toFixed(1),
          Math.max(0, speed + random.normal(0, 0.2)).toFixed(1),
          Math.round(slip + random.normal(0, 4)),
          Math.max(0, duty + random.normal(0, 0.2)).toFixed(1),
          Math.max(0, throttle * 1.35 + random.normal(0, 1)).toFixed(0),
          (74 + (16 * time) / 240).toFixed(1),
          speed < 12 ? 1 : speed < 26 ? 2 : speed < 42 ? 3 : speed < 60 ? 4 : 5,
        ].join(','),
      );
    }
  return `${lines.join('\n')}\n`;
}

/** Less command lets it slip more, down to the converter's own slip; on the overrun the wheels drive the engine. */
function slipAt(dutyPct: number, throttlePct: number, slipRpm: number): number {
  if (throttlePct < 5) return -35;
  if (dutyPct < 20) return 520;
  return slipRpm * (1 + Math.max(0, 85 - dutyPct) / 60);
}
