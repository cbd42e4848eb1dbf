import { describe, expect, it } from 'vitest';
import {
  type ClutchState,
  capacityNm,
  freshState,
  referenceSlipRpm,
  relativeViscosity,
  solveSlipRpm,
} from './clutch.ts';
import { damageAtSlip } from './faults.ts';
import { platforms } from './platforms.ts';

describe.each(platforms)('clutch of $id', (platform) => {
  const { clutch, engine, reference, limitRpm } = platform;
  const slipAt = (state: ClutchState, loadPct: number, dutyPct: number, fluidC = 85) =>
    solveSlipRpm(clutch, state, {
      torqueNm: (loadPct / 100) * engine.peakTorqueNm,
      dutyPct,
      fluidC,
      turbineRpm: reference.turbineRpm,
    });
  const wornState = (): ClutchState => ({
    ...freshState(),
    glaze: damageAtSlip(
      platform,
      clutch,
      limitRpm,
      (state, level) => Object.assign(state, { glaze: level }),
      1000,
    ),
  });

  it('slips 5 to 20 rpm at the reference point when new', () => {
    const slip = referenceSlipRpm(platform, clutch, freshState());
    expect(slip).toBeGreaterThan(5);
    expect(slip).toBeLessThan(20);
  });

  it('hardly minds load when new and minds it steeply when worn', () => {
    const rise = (state: ClutchState) => slipAt(state, 80, 92) - slipAt(state, 20, 92);
    expect(rise(freshState())).toBeLessThan(8);
    expect(rise(wornState())).toBeGreaterThan(80);
  });

  it.each([freshState(), wornState()])('slips less the more it is pressed, glaze $glaze', (state) => {
    const slips = [40, 55, 70, 85, 100].map((duty) => slipAt(state, 35, duty));
    expect(slips).toEqual(slips.toSorted((one, other) => other - one));
  });

  it('carries the torque exactly at the slip it finds', () => {
    const state = wornState();
    const dutyPct = 100;
    const torqueNm = 0.6 * engine.peakTorqueNm;
    const slip = slipAt(state, 60, dutyPct) - clutch.microSlipRpm;
    const film = clutch.filmSlipRpm * (1 + state.glaze);
    const carriedNm =
      capacityNm(clutch, state, dutyPct, 85) * (1 - Math.exp(-slip / film)) +
      clutch.converterNmPerRpm * (reference.turbineRpm / 1500) * slip;
    expect(carriedNm).toBeCloseTo(torqueNm, 1);
  });

  it('leaks more through a worn seal when the fluid is hot', () => {
    const leaking = {
      ...freshState(),
      leak: damageAtSlip(platform, clutch, 60, (state, level) => Object.assign(state, { leak: level }), 40),
    };
    const cool = slipAt(leaking, 50, 85, 65);
    const hot = slipAt(leaking, 50, 85, 105);
    expect(hot - cool).toBeGreaterThan(30);
    expect(Math.abs(slipAt(freshState(), 50, 85, 105) - slipAt(freshState(), 50, 85, 65))).toBeLessThan(4);
  });

  it('slips with the opposite sign in overrun', () => {
    expect(slipAt(freshState(), -8, 85)).toBeLessThan(0);
  });

  it('lets the fluid carry everything once the clutch has let go', () => {
    const slip = slipAt({ ...freshState(), broken: 1 }, 50, 95);
    expect(slip).toBeGreaterThan(1.2 * limitRpm);
  });
});

describe('relativeViscosity', () => {
  it('is 1 at 85 degC and falls with warmth', () => {
    expect(relativeViscosity(85)).toBe(1);
    expect(relativeViscosity(105)).toBeLessThan(relativeViscosity(65));
  });
});
