import { seededRandom } from '#tests/helpers/seeded-random.ts';

const DAY_MS = 86_400_000;

/** What a fleet has reported so far. Every vehicle beyond the samples has the readings of one of them. */
export interface History {
  vehicles: number;
  samples: number;
  /** of each vehicle */
  readings: number;
  days: number;
  endMs: number;
}

export const unitOf = (vehicle: number) => `F-${String(vehicle + 1).padStart(5, '0')}`;

/** Kilometres a day of a sample and of its copies. */
const paceOf = (sample: number) => 90 + 5 * (sample % 16);

/**
 * What a sample reports at its `turn`, from 0, or of days after the history where `dayAfter` is given: one in eight drifts over
 * the last third, one in twenty-four up to its limit.
 */
function makeReading(history: History, sample: number, days: number, normal: () => number, turn: number) {
  const share = days / history.days;
  const rise = sample % 24 === 5 ? 135 : sample % 8 === 5 ? 45 : 0;
  const load = 50 + 14 * Math.sin(turn * 1.7 + sample);
  const fluid = 84 + 5 * Math.sin((2 * Math.PI * days) / 365) + 2 * Math.sin(turn * 0.9);
  const healthy = 9 + (sample % 5) + 0.06 * (load - 50) + 0.1 * (fluid - 85);
  const tenth = (value: number) => Math.round(value * 10) / 10;
  return {
    at: new Date(
      Math.floor(history.endMs + (days - history.days) * DAY_MS) + sample * 1000 - 60_000,
    ).toISOString(),
    odometer_km: tenth(80_000 + 900 * sample + paceOf(sample) * days),
    slip_rpm: tenth(healthy + rise * Math.max(0, (share - 0.67) / 0.33) + 1.6 * normal()),
    duty_pct: tenth(62 + 36 * ((turn * 0.618) % 1)),
    fluid_c: tenth(fluid),
    load_pct: tenth(load),
    torque_pct: tenth(load * 0.9),
    speed_kmh: tenth(62 + 18 * Math.sin(turn * 2.3)),
    gear: 4 + (turn % 3),
    seconds: 10,
  };
}

/** All that a sample has reported, in order of time. */
export function* listHistory(history: History, sample: number) {
  const { normal } = seededRandom(1000 + sample);
  for (let turn = 0; turn < history.readings; turn++)
    yield {
      vehicle: unitOf(sample),
      ...makeReading(history, sample, (history.days * turn) / history.readings, normal, turn),
    };
}

/** So many readings of each of these vehicles on a day after the history, from 0, in order of time. */
export function* listDayAfter(history: History, day: number, vehicles: number, readings: number) {
  const { normal } = seededRandom(77 + day);
  for (let turn = 0; turn < readings; turn++)
    for (let vehicle = 0; vehicle < vehicles; vehicle++)
      yield {
        vehicle: unitOf(vehicle),
        ...makeReading(
          history,
          vehicle % history.samples,
          history.days + day + turn / readings,
          normal,
          turn,
        ),
      };
}
