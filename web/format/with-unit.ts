/** A figure and its unit, which no line break parts. */
export const withUnit = (figure: string, unit: string): string => `${figure}\u00a0${unit}`;
