export * from '#server/engine/stretches/weigh-reading.ts';

/** Every usable reading counts the same, however far from the reference point. */
export const weighReading = () => 1;
