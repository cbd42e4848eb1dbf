import type { GaugeWords } from './shared-gauges.ts';

/** What is left to assess. */
export interface WaitingFigures {
  vehicles: number;
  oldestS: number;
  workers: number;
}

export const waitingGauges: GaugeWords<WaitingFigures> = {
  vehicles: {
    name: 'slipdrift_waiting_vehicles',
    help: 'Vehicles with new readings that are not assessed and ranked yet, over all processes',
  },
  oldestS: {
    name: 'slipdrift_waiting_oldest_seconds',
    help: 'For how long the one of them has waited that was touched first; 0 where none is',
  },
  workers: {
    name: 'slipdrift_workers_busy',
    help: 'Workers that are assessing at the moment, over all processes',
  },
};
