/**
 * Clutch heat for each 1,000 km, MJ: mean power over mean speed, (sum kW / sum km/h) * 3600 s/h * 1000 km / 1000 kJ/MJ.
 * Null where torque or speed is not known.
 */
export const heatPerWay = (heatKw: number, speedKmh: number): number | null =>
  speedKmh > 0 ? (heatKw * 3600) / speedKmh : null;
