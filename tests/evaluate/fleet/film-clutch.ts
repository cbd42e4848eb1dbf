import { type Clutch, type ReferencePoint, shareLeft } from './clutch.ts';

const FLUID_ONLY_LIMITS = 2.4;
/** Slip at which the film of fluid on the lining begins to be sheared out, at reference temperature. */
const FILM_RPM = 6;

/**
 * No micro-slip set by electronics and no point of breakaway: a film of fluid between lining and plate is sheared, its
 * torque growing with asinh of slip (Eyring's law of shear), and a part goes through the converter's fluid in
 * proportion to slip: demand = k * asinh(slip / film) + slip / fluidOnly, solved for slip.
 */
export function createFilmClutch(reference: ReferencePoint, limitRpm: number): Clutch {
  const fluidOnlyRpm = FLUID_ONLY_LIMITS * limitRpm;
  const strengthAt = (referenceRpm: number) =>
    (1 - referenceRpm / fluidOnlyRpm) / Math.asinh(referenceRpm / FILM_RPM);

  return {
    reference,
    largestRpm: 2 * limitRpm,
    /** Healthy slip alone says how strong the film is: the margin shows in it. */
    build: (mode, healthyRpm) => ({ mode, healthyRpm, capacity: strengthAt(healthyRpm) }),
    lossAt: (converter, referenceRpm) => 1 - strengthAt(referenceRpm) / converter.capacity,
    slip(converter, loss, dutyPct, loadPct, fluidC) {
      const hotter = fluidC - reference.fluidC;
      const pressure = (dutyPct / reference.dutyPct) ** 0.8;
      const left = shareLeft(converter.mode, loss, dutyPct, fluidC, reference);
      const strength = converter.capacity * pressure * left * Math.exp(-0.003 * hotter);
      const filmRpm = FILM_RPM * Math.exp(0.008 * hotter);
      return shearFilm(loadPct / reference.loadPct, strength, filmRpm, fluidOnlyRpm);
    },
  };
}

/** Newton's method on y = asinh(slip / film). The left side is convex in y, so from above it only falls. */
function shearFilm(demand: number, strength: number, filmRpm: number, fluidOnlyRpm: number): number {
  const ratio = filmRpm / fluidOnlyRpm;
  let y = Math.min(demand / strength, Math.asinh(demand / ratio));
  for (let i = 0; i < 30; i++) {
    const e = Math.exp(y);
    const sinh = (e - 1 / e) / 2;
    const step = (strength * y + ratio * sinh - demand) / (strength + (ratio * (e + 1 / e)) / 2);
    y -= step;
    if (step < 1e-9) break;
  }
  return filmRpm * Math.sinh(y);
}
