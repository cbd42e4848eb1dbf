/** The depots of the invented operator "Varrowdale": where they lie decides climate, hills and weekly rhythm. */
export interface DepotBuild {
  id: string;
  name: string;
  /** bays that are kept for inspections, and when: most of a workshop's day belongs to other work */
  bays: number;
  hours: { from: string; to: string };
  /** working days from Monday, 0 */
  workdays: readonly number[];
  climate: { meanC: number; seasonC: number; dayNoiseC: number };
  terrain: {
    gradeSdPct: number;
    /** shares of readings taken in town, on country roads and on trunk roads */
    town: number;
    country: number;
    trunk: number;
  };
  /** payload by weekday from Sunday, 1 is usual */
  weekdayPayload: readonly number[];
}

const weekdays = [0, 1, 2, 3, 4];

export const depots: readonly DepotBuild[] = [
  {
    id: 'skarrowick',
    name: 'Skarrowick (hills)',
    bays: 1,
    hours: { from: '07:00', to: '12:00' },
    workdays: weekdays,
    climate: { meanC: 6, seasonC: 11, dayNoiseC: 3 },
    terrain: { gradeSdPct: 2.6, town: 0.3, country: 0.5, trunk: 0.2 },
    weekdayPayload: [0.7, 1, 1, 1, 1, 1.15, 0.85],
  },
  {
    id: 'dellforth',
    name: 'Dellforth (plain)',
    bays: 1,
    hours: { from: '06:00', to: '14:00' },
    workdays: weekdays,
    climate: { meanC: 16, seasonC: 12, dayNoiseC: 2.5 },
    terrain: { gradeSdPct: 0.8, town: 0.45, country: 0.25, trunk: 0.3 },
    weekdayPayload: [0.75, 1.1, 1, 1, 1.05, 1.1, 0.8],
  },
  {
    id: 'wexenfirth',
    name: 'Wexenfirth (coast)',
    bays: 1,
    hours: { from: '08:00', to: '13:00' },
    workdays: [1, 2, 3, 4, 5],
    climate: { meanC: 11, seasonC: 6, dayNoiseC: 2 },
    terrain: { gradeSdPct: 1.6, town: 0.4, country: 0.4, trunk: 0.2 },
    weekdayPayload: [1, 0.95, 0.95, 1, 1, 1.1, 1.2],
  },
  {
    id: 'ulmerholt',
    name: 'Ulmerholt (town)',
    bays: 1,
    hours: { from: '13:00', to: '20:00' },
    workdays: weekdays,
    climate: { meanC: 12, seasonC: 9, dayNoiseC: 2.5 },
    terrain: { gradeSdPct: 1.2, town: 0.6, country: 0.15, trunk: 0.25 },
    weekdayPayload: [0.65, 1.1, 1.1, 1.05, 1.05, 1.05, 0.8],
  },
];
