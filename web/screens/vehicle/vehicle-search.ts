/** State of the vehicle screen that a link should carry. */
export type VehicleSearch = Record<never, never>;

export const parseVehicleSearch = (_raw: Record<string, unknown>): VehicleSearch => ({});
