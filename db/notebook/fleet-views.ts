import { column, type NotebookView, ofVehicle, vehicleColumns } from './view.ts';

/** What the instrument lacks to the joined track, as of the last step. */
const offsetKm = `coalesce((select o.offset_km from public.odometer_steps o where o.vehicle = v.key
      order by o.at desc limit 1), 0)`;

export const vehiclesView: NotebookView = {
  name: 'vehicles',
  meaning: 'Vehicles, registered or known from their readings alone',
  from: 'public.vehicles v left join public.reading_spans r on r.vehicle = v.key',
  order: 'v.key',
  narrow: ofVehicle,
  columns: [
    ...vehicleColumns,
    column('vin', 'text', '', 'vehicle identification number', 'v.vin'),
    column('registered', 'boolean', '', 'false while it is known from its readings alone', 'v.registered'),
    column('retired', 'boolean', '', 'out of the fleet', 'v.retired'),
    column('first_reading_at', 'instant', '', 'moment of the first reading', 'r.first_at'),
    column('last_reading_at', 'instant', '', 'moment of the newest reading', 'r.last_at'),
    column(
      'odometer_km',
      'double',
      'km',
      'mileage of the newest reading, as the instrument showed it',
      'r.odometer_km',
    ),
    column(
      'odometer_offset_km',
      'double',
      'km',
      'to be added to what the instrument shows now, so that mileage runs on where it was changed or set back',
      offsetKm,
    ),
  ],
};

export const platformsView: NotebookView = {
  name: 'platforms',
  meaning: 'Platforms: vehicle and transmission types with their limits and costs',
  from: 'public.platforms p',
  order: 'p.id',
  narrow: { platform: 'p.id' },
  columns: [
    column('platform', 'text', '', 'id', 'p.id'),
    column('name', 'text', '', 'name', 'p.name'),
    column(
      'limit_rpm',
      'double',
      'rpm',
      'reference slip at which the clutch counts as failed',
      'p.limit_rpm',
    ),
    column(
      'band_edges_pct',
      'doubles',
      '%',
      'rising edges of the command bands, commanded duty',
      'p.band_edges_pct',
    ),
    column(
      'reference_duty_pct',
      'double',
      '%',
      'reference point: commanded duty',
      "(p.reference ->> 'duty_pct')::float8",
    ),
    column(
      'reference_load_pct',
      'double',
      '%',
      'reference point: engine load',
      "(p.reference ->> 'load_pct')::float8",
    ),
    column(
      'reference_fluid_c',
      'double',
      'degC',
      'reference point: fluid temperature',
      "(p.reference ->> 'fluid_c')::float8",
    ),
    column('life_km', 'double', 'km', 'expected converter life of the settings', 'p.life_km'),
    column(
      'reference_torque_nm',
      'double',
      'N m',
      'engine torque that 100 % torque stands for',
      'p.reference_torque_nm',
    ),
    column(
      'road_failure_cost',
      'double',
      "fleet's currency",
      'of a failure on the road',
      "(p.costs ->> 'road_failure')::float8",
    ),
    column(
      'planned_repair_cost',
      'double',
      "fleet's currency",
      'of a planned repair',
      "(p.costs ->> 'planned_repair')::float8",
    ),
    column(
      'inspection_cost',
      'double',
      "fleet's currency",
      'of an inspection',
      "(p.costs ->> 'inspection')::float8",
    ),
    column(
      'lost_day_cost',
      'double',
      "fleet's currency",
      'of a day off the road',
      "(p.costs ->> 'lost_day')::float8",
    ),
    column('inspection_hours', 'double', 'h', 'how long an inspection has a bay', 'p.inspection_hours'),
  ],
};

export const depotsView: NotebookView = {
  name: 'depots',
  meaning: 'Depots',
  from: 'public.depots d',
  order: 'd.id',
  narrow: { depot: 'd.id' },
  columns: [
    column('depot', 'text', '', 'id', 'd.id'),
    column('name', 'text', '', 'name', 'd.name'),
    column('bays', 'integer', '', 'bays for inspections', 'd.bays'),
    column('time_zone', 'text', '', 'time zone in which its days are counted', 'd.time_zone'),
  ],
};

export const livesView: NotebookView = {
  name: 'lives',
  meaning: 'Converter lives: one converter in one vehicle, from fitting to removal',
  from: `(select *, row_number() over (partition by vehicle order by fitted_km) as number from public.lives) l
    join public.vehicles v on v.key = l.vehicle`,
  order: 'l.vehicle, l.fitted_km',
  narrow: {
    ...ofVehicle,
    since: {
      meaning: 'lives that ran on that day or later; those whose removal has no date are kept',
      condition: (parameter) => `coalesce(l.removed_at, 'infinity') >= ${parameter}`,
    },
  },
  columns: [
    ...vehicleColumns,
    column(
      'life',
      'integer',
      '',
      'number of the life within the vehicle, from 1, as in the stretches',
      'l.number::integer',
    ),
    column('source', 'text', '', 'original, new, rebuilt or used', 'l.source'),
    column('supplier', 'text', '', 'whom the converter came from', 'l.supplier'),
    column('fitted_km', 'double', 'km', 'mileage at fitting', 'l.fitted_km'),
    column(
      'run_km',
      'double',
      'km',
      'what the converter had run before it was fitted; null where nobody has said',
      'l.run_km',
    ),
    column('fitted_at', 'instant', '', 'moment of fitting', 'l.fitted_at'),
    column('removed_km', 'double', 'km', 'mileage at removal; null where it is still in', 'l.removed_km'),
    column('removed_at', 'instant', '', 'moment of removal', 'l.removed_at'),
    column(
      'ended',
      'text',
      '',
      'failed, preventive or retired; null where it runs, or nobody has said',
      'l.ended',
    ),
    column('mode', 'text', '', 'what failed', 'l.mode'),
    column(
      'converter_km',
      'double',
      'km',
      'driven with this converter: to its removal, or to the newest reading; null where no reading says',
      `greatest(coalesce(l.removed_km, (select r.odometer_km from public.reading_spans r where r.vehicle = v.key) + ${offsetKm}) - l.fitted_km, 0)`,
    ),
  ],
};
