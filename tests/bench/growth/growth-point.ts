/** What is asked of a fleet of each size, per one of it. */
export const costs = {
  row: 'a row delivered',
  touched: 'a vehicle with new data assessed',
  list: 'a page of the list',
  vehicle: 'a vehicle',
  series: 'a series',
} as const;
export type Cost = keyof typeof costs;

export interface GrowthPoint {
  grows: 'vehicles' | 'history';
  times: number;
  vehicles: number;
  days: number;
  /** milliseconds of processor time, of program and PostgreSQL, and by the clock */
  processorMs: Record<Cost, number>;
  clockMs: Record<Cost, number>;
}
