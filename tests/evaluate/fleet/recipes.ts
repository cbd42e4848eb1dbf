import type { FleetRecipe } from './simulated-fleet.ts';

const usual = {
  vehicles: 300,
  friction: 'breakaway',
  wears: { linear: 1, accelerating: 1, power: 1, stepwise: 1 },
  historyDays: [125, 730],
  thereFromStart: 0.5,
  slipNoiseRpm: [3, 10],
  dayEffectRpm: [1.5, 4],
  seasonRpm: 2.5,
  slipQuantaRpm: [0.125, 1, 1, 4],
  glitchShare: 0.01,
  depotLoads: [-5, 7],
  loadSpread: 13,
  farShare: 0.12,
  leanShare: 0.04,
  commonSteps: [{ platform: 0, when: 0.6, rpm: 22 }],
  failedShare: 0.08,
  preventiveShare: 0.04,
  unreportedShare: 0.4,
  dutyPerSlipRpm: 0,
} as const satisfies Partial<FleetRecipe>;

const make = (
  name: string,
  seed: string,
  kept: boolean,
  knobs: Partial<FleetRecipe> & { family?: string } = {},
): FleetRecipe => ({
  ...usual,
  historyDays: [...usual.historyDays],
  slipNoiseRpm: [...usual.slipNoiseRpm],
  dayEffectRpm: [...usual.dayEffectRpm],
  slipQuantaRpm: [...usual.slipQuantaRpm],
  depotLoads: [...usual.depotLoads],
  commonSteps: [...usual.commonSteps],
  family: name,
  ...knobs,
  name,
  seed,
  kept,
});

const tuning: FleetRecipe[] = [
  make('small', 'willow-11', false, { vehicles: 100 }),
  make('mixed', 'alder-23', false),
  make('plain', 'birch-37', false, {
    slipNoiseRpm: [2, 4],
    dayEffectRpm: [0.5, 1.5],
    seasonRpm: 0.8,
    slipQuantaRpm: [0.125, 0.5],
    commonSteps: [{ platform: 1, when: 0.5, rpm: 16 }],
  }),
  make('hills', 'cedar-41', false, { depotLoads: [-8, 18], loadSpread: 18, farShare: 0.2 }),
  make('short-history', 'dogwood-59', false, {
    historyDays: [120, 245],
    thereFromStart: 0.2,
    commonSteps: [{ platform: 2, when: 0.45, rpm: -12 }],
  }),
  make('linear', 'elm-61', false, { wears: { linear: 1 } }),
  make('lean-feed', 'fir-73', false, { leanShare: 0.5 }),
];

/** Never looked at while the engine is built: other families and other seeds. */
const kept: FleetRecipe[] = [
  make('mixed-2', 'quartz-104', true, {
    friction: 'film',
    dutyPerSlipRpm: 0.05,
    commonSteps: [{ platform: 2, when: 0.7, rpm: 18 }],
  }),
  make('accelerating', 'basalt-211', true, { wears: { accelerating: 1 } }),
  make('power', 'gneiss-317', true, { wears: { power: 1 }, friction: 'film' }),
  make('stepwise', 'slate-421', true, { wears: { stepwise: 1 } }),
  make('noisy', 'chalk-523', true, {
    slipNoiseRpm: [8, 16],
    dayEffectRpm: [4, 7],
    seasonRpm: 8,
    slipQuantaRpm: [1, 4, 8],
    glitchShare: 0.015,
  }),
  make('step', 'marble-631', true, {
    commonSteps: [
      { platform: 0, when: 0.45, rpm: 40 },
      { platform: 1, when: 0.8, rpm: 28 },
    ],
  }),
  make('replaced', 'granite-743', true, {
    failedShare: 0.2,
    preventiveShare: 0.1,
    unreportedShare: 0.5,
  }),
];

export const recipes: FleetRecipe[] = [...tuning, ...kept];
