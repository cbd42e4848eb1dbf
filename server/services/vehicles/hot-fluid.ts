import { fluidEdgesC } from '#server/engine/stretches/exposure-bins.ts';

/** Fluid from here on counts as hot, degC: an edge of the exposure bins. Common practice, no source. */
export const HOT_FLUID_C = 100;

/** Number of the first bin of hot fluid, from 0. */
export const FIRST_HOT_BIN = fluidEdgesC.indexOf(HOT_FLUID_C) + 1;
