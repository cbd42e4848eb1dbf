import type { Disorder, FaultOrder, Scenario } from './scenario.ts';
import type { FaultKind } from './wear.ts';

export const scenarioNames = [
  'operator',
  'small',
  'platform-step',
  'replaced',
  'slipping-on-arrival',
  'seal-hot',
] as const;
export type ScenarioName = (typeof scenarioNames)[number];

const disorder: Disorder = {
  glitchShare: 0.01,
  duplicateShare: 0.006,
  lateShare: 0.012,
  refusedShare: 0.001,
};
const spans: Record<FaultKind, readonly [number, number]> = {
  none: [1, 1],
  linear: [12_000, 50_000],
  accelerating: [14_000, 45_000],
  stepwise: [12_000, 40_000],
  seal_leak: [15_000, 45_000],
  valve_sticking: [1, 1],
  solenoid: [10_000, 35_000],
  sudden: [1, 1],
};

const drifting = (
  count: number,
  kind: FaultKind,
  low: number,
  high: number,
  platform?: string,
): FaultOrder => ({
  count,
  kind,
  spanKm: spans[kind],
  fate: { at: 'end', kmToLimit: [low, high], begun: true },
  ...(platform === undefined ? {} : { platform }),
});

const ahead = (count: number, kind: FaultKind, low: number, high: number): FaultOrder => ({
  count,
  kind,
  spanKm: spans[kind],
  fate: { at: 'end', kmToLimit: [low, high], begun: false },
});

const changed = (
  count: number,
  kind: FaultKind,
  ended: 'failed' | 'preventive',
  reported = true,
  share: readonly [number, number] = [0.2, 0.85],
): FaultOrder => ({ count, kind, spanKm: spans[kind], fate: { at: 'window', share, ended, reported } });

const base = {
  platformStep: null,
  unregistered: 0,
  imperial: 0,
  quietGateways: 0,
  odometerChanges: 0,
  retired: 0,
  gatewayShares: { speeds: 0.33, plain: 0.1 },
  disorder,
};

type Template = Omit<Scenario, 'name' | 'seed' | 'end'>;

const templates: Record<ScenarioName, Template> = {
  operator: {
    ...base,
    months: 14,
    vehicles: 240,
    unregistered: 3,
    imperial: 7,
    quietGateways: 5,
    odometerChanges: 1,
    retired: 2,
    platformStep: { platform: 'korvandel', daysBeforeEnd: 150, rpm: 25 },
    orders: [
      drifting(1, 'linear', -900, -300),
      drifting(2, 'accelerating', -1200, -200),
      drifting(1, 'linear', 300, 1900),
      drifting(1, 'accelerating', 300, 1900),
      drifting(1, 'stepwise', 600, 1900),
      drifting(1, 'seal_leak', 500, 1900),
      drifting(2, 'linear', 2200, 5000),
      drifting(2, 'accelerating', 2200, 5000),
      drifting(1, 'solenoid', 2200, 5000),
      drifting(2, 'linear', 5000, 10_000),
      drifting(1, 'accelerating', 5000, 10_000),
      drifting(1, 'stepwise', 5000, 10_000),
      drifting(2, 'seal_leak', 5000, 10_000),
      drifting(2, 'linear', 10_000, 20_000),
      drifting(2, 'accelerating', 10_000, 20_000),
      drifting(1, 'stepwise', 10_000, 20_000),
      drifting(1, 'solenoid', 8000, 14_000),
      drifting(2, 'linear', 20_000, 40_000),
      drifting(1, 'accelerating', 14_000, 20_000),
      drifting(2, 'valve_sticking', -9000, -2000),
      drifting(1, 'sudden', -60, -20),
      {
        count: 1,
        kind: 'linear',
        spanKm: [45_000, 55_000],
        fate: { at: 'arrival', daysBeforeEnd: [45, 70] },
      },
      changed(4, 'linear', 'failed'),
      changed(4, 'accelerating', 'failed'),
      changed(1, 'stepwise', 'failed'),
      changed(1, 'seal_leak', 'failed'),
      changed(1, 'linear', 'preventive'),
      changed(1, 'accelerating', 'preventive'),
      changed(2, 'linear', 'failed', false),
      changed(2, 'accelerating', 'failed', false),
      changed(4, 'sudden', 'failed', true, [0.1, 0.9]),
      ahead(3, 'linear', 45_000, 58_000),
      ahead(2, 'accelerating', 45_000, 58_000),
      ahead(1, 'sudden', 800, 20_000),
    ],
  },
  small: {
    ...base,
    months: 5,
    vehicles: 24,
    unregistered: 1,
    imperial: 1,
    quietGateways: 1,
    odometerChanges: 1,
    platformStep: { platform: 'korvandel', daysBeforeEnd: 60, rpm: 25 },
    orders: [
      drifting(1, 'linear', -600, -200, 'morvelt'),
      drifting(1, 'accelerating', 400, 1800, 'morvelt'),
      drifting(1, 'linear', 6000, 9000, 'morvelt'),
      drifting(1, 'linear', 2500, 5000, 'korvandel'),
      changed(1, 'linear', 'failed', true, [0.45, 0.6]),
      changed(1, 'accelerating', 'failed', false, [0.45, 0.6]),
    ],
  },
  'platform-step': {
    ...base,
    months: 6,
    vehicles: 36,
    platformStep: { platform: 'korvandel', daysBeforeEnd: 60, rpm: 25 },
    orders: [drifting(1, 'linear', 500, 1500, 'korvandel'), drifting(1, 'linear', 3000, 6000, 'morvelt')],
  },
  replaced: {
    ...base,
    months: 8,
    vehicles: 20,
    orders: [
      changed(2, 'linear', 'failed', true, [0.4, 0.7]),
      changed(2, 'accelerating', 'failed', true, [0.4, 0.7]),
      changed(1, 'linear', 'preventive', true, [0.4, 0.7]),
      changed(2, 'linear', 'failed', false, [0.4, 0.7]),
      changed(1, 'accelerating', 'failed', false, [0.4, 0.7]),
    ],
  },
  'slipping-on-arrival': {
    ...base,
    months: 4,
    vehicles: 16,
    orders: [
      {
        count: 2,
        kind: 'linear',
        spanKm: [60_000, 80_000],
        fate: { at: 'arrival', daysBeforeEnd: [35, 60] },
      },
    ],
  },
  'seal-hot': {
    ...base,
    months: 12,
    vehicles: 16,
    orders: [drifting(4, 'seal_leak', 1500, 9000, 'morvelt')],
  },
};

export interface ScenarioChoice {
  end?: Date;
  seed?: string;
}

/** A named scenario that ends at `end`, by default now. */
export function getScenario(
  name: ScenarioName,
  { end = new Date(), seed = 'varrowdale-1' }: ScenarioChoice = {},
) {
  if (Number.isNaN(end.getTime())) throw new Error('getScenario requires an end that is a valid date');
  return { name, seed, end, ...templates[name] } satisfies Scenario;
}
