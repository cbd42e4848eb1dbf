import { column, type NotebookView, ofVehicle, vehicleColumns } from './view.ts';

const kinds = (field: string) =>
  `array(select e.one ->> 'kind' from jsonb_array_elements(a.brief -> '${field}') with ordinality e(one, i) order by e.i)`;

export const assessmentsView: NotebookView = {
  name: 'assessments',
  meaning: 'What the stretches of each vehicle say, with its place in the inspection list',
  from: `public.assessments a join public.vehicles v on v.key = a.vehicle
    left join public.reading_spans r on r.vehicle = a.vehicle`,
  order: 'a.rank, a.vehicle',
  narrow: {
    ...ofVehicle,
    since: {
      meaning: 'vehicles that sent a reading on that day or later',
      condition: (parameter) => `r.last_at >= ${parameter}`,
    },
  },
  columns: [
    column('rank', 'integer', '', 'place in the inspection list, from 1', 'a.rank'),
    ...vehicleColumns,
    column('grade', 'text', '', 'hold, book, watch, steady or unknown', 'a.grade'),
    column('as_of', 'instant', '', 'when it was assessed', 'a.as_of'),
    column('life', 'integer', '', 'number of the converter life that it runs on', 'a.life::integer'),
    column(
      'odometer_km',
      'double',
      'km',
      'mileage of the newest reading, as the instrument showed it',
      'r.odometer_km',
    ),
    column('last_reading_at', 'instant', '', 'moment of the newest reading', 'r.last_at'),
    column('km_per_day', 'double', 'km/day', 'driven lately', 'a.km_per_day'),
    column(
      'reference_slip_rpm',
      'double',
      'rpm',
      'slip brought to the reference point, now',
      'a.reference_slip_rpm',
    ),
    column('baseline_rpm', 'double', 'rpm', 'slip of the healthy life', 'a.baseline_rpm'),
    column(
      'limit_rpm',
      'double',
      'rpm',
      'reference slip at which the clutch counts as failed',
      'a.limit_rpm',
    ),
    column(
      'onset_km',
      'double',
      'km',
      'mileage at which slip began to rise, on the joined track',
      'a.onset_km',
    ),
    column(
      'drift_rpm_per_1000km',
      'double',
      'rpm per 1,000 km',
      'drift rate since the onset',
      'a.drift_rpm_per_km * 1000',
    ),
    column('drift_low', 'double', 'rpm per 1,000 km', 'lower bound of the drift rate', 'a.drift_low * 1000'),
    column(
      'drift_high',
      'double',
      'rpm per 1,000 km',
      'upper bound of the drift rate',
      'a.drift_high * 1000',
    ),
    column('p_value', 'double', '', 'chance of such a rise where nothing drifts', 'a.p'),
    column('q_value', 'double', '', 'share of false finds among the vehicles up to this one', 'a.q'),
    column(
      'km_to_limit_p10',
      'double',
      'km',
      'distance to the limit, 10 %; null where nothing drifts, 0 where it is passed',
      'a.km_p10',
    ),
    column('km_to_limit_p50', 'double', 'km', 'distance to the limit, 50 %', 'a.km_p50'),
    column('km_to_limit_p90', 'double', 'km', 'distance to the limit, 90 %', 'a.km_p90'),
    column(
      'chance_within_horizon',
      'double',
      '0 to 1',
      'chance of reaching the limit or failing within the usual horizon',
      'a.chance',
    ),
    column(
      'expected_cost_avoided',
      'double',
      "fleet's currency",
      'what an inspection now should avoid',
      'a.cost_avoided',
    ),
    column('pattern', 'text', '', 'shape of the slip', 'a.pattern'),
    column('reasons', 'texts', '', 'kinds of its reasons, the first first', kinds('reasons')),
    column('missing', 'texts', '', 'kinds of what is missing to say more', kinds('missing')),
  ],
};

export const gradeChangesView: NotebookView = {
  name: 'grade_changes',
  meaning: 'Changes of grade',
  from: 'public.grade_changes g join public.vehicles v on v.key = g.vehicle',
  order: 'g.vehicle, g.at',
  narrow: {
    ...ofVehicle,
    since: { meaning: 'changes of that day or later', condition: (parameter) => `g.at >= ${parameter}` },
  },
  columns: [
    ...vehicleColumns,
    column('at', 'instant', '', 'moment of the change', 'g.at'),
    column('from_grade', 'text', '', 'grade before; null for the first', 'g.from_grade'),
    column('to_grade', 'text', '', 'grade since', 'g.to_grade'),
    column('odometer_km', 'double', 'km', 'mileage then', 'g.odometer_km'),
    column('reason', 'text', '', 'kind of the first reason', "g.why ->> 'kind'"),
  ],
};

export const fleetEventsView: NotebookView = {
  name: 'fleet_events',
  meaning: 'Steps that all vehicles of a platform made together',
  from: 'public.fleet_events e',
  order: 'e.platform, e.at',
  narrow: {
    platform: 'e.platform',
    since: { meaning: 'steps of that day or later', condition: (parameter) => `e.at >= ${parameter}` },
  },
  columns: [
    column('platform', 'text', '', 'platform; null for vehicles that have none', "nullif(e.platform, '')"),
    column('at', 'instant', '', 'moment of the step', 'e.at'),
    column('size_rpm', 'double', 'rpm', 'its size', 'e.size_rpm'),
    column('vehicles', 'integer', '', 'vehicles that it was seen on', 'e.vehicles'),
  ],
};
