/**
 * Heat made in a slipping clutch.
 *
 * P = 2 * pi / 60 * T * n, with T the torque carried and n the slip: power = torque * angular speed.
 *
 * @param torqueNm torque carried, N m
 * @param slipRpm  slip, rpm
 * @returns power, kW; 0 where torque or slip is negative
 * Source: rotational power, any handbook of mechanics (for instance NIST SP 811 for the unit of torque).
 * Edges: overrun makes no heat that counts here. Errors: none.
 * @example clutchHeatKw(300, 100) // 3.14
 */
export function clutchHeatKw(torqueNm: number, slipRpm: number): number {
  return (((2 * Math.PI) / 60) * Math.max(0, torqueNm) * Math.max(0, slipRpm)) / 1000;
}
