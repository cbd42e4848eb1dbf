import { column, type NotebookView, ofVehicle, vehicleColumns } from './view.ts';

const life = (of: string) =>
  column(
    'life',
    'integer',
    '',
    'number of the converter life within the vehicle; 0 before the first that is registered',
    `${of}.life::integer`,
  );

export const readingsView: NotebookView = {
  name: 'readings',
  meaning: 'Readings as they came, in metric units, usable or not',
  from: 'public.readings r join public.vehicles v on v.key = r.vehicle',
  order: 'r.vehicle, r.at',
  narrow: {
    ...ofVehicle,
    since: { meaning: 'readings of that day or later', condition: (parameter) => `r.at >= ${parameter}` },
  },
  columns: [
    ...vehicleColumns,
    column('at', 'instant', '', 'moment of the reading', 'r.at'),
    column('odometer_km', 'real', 'km', 'mileage, as the instrument showed it', 'r.odometer_km'),
    column('slip_rpm', 'real', 'rpm', 'engine less turbine speed', 'r.slip_rpm'),
    column('duty_pct', 'real', '%', 'commanded duty', 'r.duty_pct'),
    column('fluid_c', 'real', 'degC', 'transmission fluid', 'r.fluid_c'),
    column('load_pct', 'real', '%', 'engine load', 'r.load_pct'),
    column('torque_pct', 'real', '%', 'engine torque, of the reference torque', 'r.torque_pct'),
    column('throttle_pct', 'real', '%', 'throttle', 'r.throttle_pct'),
    column('speed_kmh', 'real', 'km/h', 'road speed', 'r.speed_kmh'),
    column('seconds', 'real', 's', 'length of the window that was averaged', 'r.seconds'),
    column('gear', 'integer', '', 'gear', 'r.gear::integer'),
    column('shifting', 'boolean', '', 'a shift was under way', 'r.shifting'),
    column('codes', 'texts', '', 'trouble codes active', 'r.codes'),
    column(
      'arrived_at',
      'instant',
      '',
      'when it arrived, where that was over a day after its moment',
      'r.arrived_at',
    ),
  ],
};

export const stretchesView: NotebookView = {
  name: 'stretches',
  meaning: 'Stretches: usable readings of a short run of kilometres, summarised per command band',
  from: `public.stretches s join public.vehicles v on v.key = s.vehicle
    left join public.platforms p on p.id = v.platform`,
  order: 's.vehicle, s.life, s.band, s.stretch',
  narrow: {
    ...ofVehicle,
    since: {
      meaning: 'stretches that ended on that day or later',
      condition: (parameter) => `s.last_at >= ${parameter}`,
    },
  },
  columns: [
    ...vehicleColumns,
    life('s'),
    column(
      'band',
      'integer',
      '',
      'command band, from 0; -1 is the series at the reference point',
      's.band::integer',
    ),
    column(
      'band_from_pct',
      'double',
      '%',
      'lower edge of the band, commanded duty; null for band -1 and without a platform',
      'p.band_edges_pct[s.band + 1]',
    ),
    column(
      'band_to_pct',
      'double',
      '%',
      'upper edge of the band',
      'case when s.band >= 0 then p.band_edges_pct[s.band + 2] end',
    ),
    column(
      'stretch',
      'integer',
      '',
      'number of the stretch: mileage over the length of a stretch, rounded down',
      's.stretch',
    ),
    column('first_at', 'instant', '', 'moment of the first reading', 's.first_at'),
    column('last_at', 'instant', '', 'moment of the last reading', 's.last_at'),
    column('n', 'integer', '', 'usable readings', 's.n'),
    column('weight', 'double', '', 'sum of their weights', 's.weight'),
    column('effective', 'double', '', 'effective count, (sum w)^2 / sum w^2', 's.effective'),
    column(
      'odometer_km',
      'double',
      'km',
      'weighted mean mileage, on the track joined over changes of the instrument',
      's.odometer_km',
    ),
    column('slip_rpm', 'double', 'rpm', 'robust location of slip', 's.slip_rpm'),
    column('scale_rpm', 'double', 'rpm', 'robust scale of slip', 's.scale_rpm'),
    column('duty_pct', 'double', '%', 'weighted mean of commanded duty', 's.duty_pct'),
    column('fluid_c', 'double', 'degC', 'weighted mean fluid temperature; null where not known', 's.fluid_c'),
    column('load_pct', 'double', '%', 'weighted mean engine load; null where not known', 's.load_pct'),
  ],
};

export const stretchTotalsView: NotebookView = {
  name: 'stretch_totals',
  meaning: 'What a stretch held in all bands together, usable or not',
  from: 'public.stretch_totals t join public.vehicles v on v.key = t.vehicle',
  order: 't.vehicle, t.life, t.stretch',
  narrow: {
    ...ofVehicle,
    since: {
      meaning: 'stretches that ended on that day or later',
      condition: (parameter) => `t.last_at >= ${parameter}`,
    },
  },
  columns: [
    ...vehicleColumns,
    life('t'),
    column('stretch', 'integer', '', 'number of the stretch, as in the stretches', 't.stretch'),
    column('first_at', 'instant', '', 'moment of the first reading', 't.first_at'),
    column('last_at', 'instant', '', 'moment of the last reading', 't.last_at'),
    column('usable', 'integer', '', 'usable readings', 't.usable'),
    column(
      'set_aside',
      'integer',
      '',
      'readings that were set aside',
      `(select coalesce(sum(c.n::integer), 0)::integer from jsonb_each(t.set_aside) m, jsonb_each_text(m.value) c(reason, n))`,
    ),
    column('set_aside_by_month', 'json', '', 'the same: month (YYYY-MM) to reason to count', 't.set_aside'),
    column(
      'fluid_bins',
      'integers',
      '',
      'usable readings by fluid temperature: below 60 degC, 60, 70, 80, 90, 100, from 110; all 0 where not known',
      't.fluid_bins',
    ),
    column(
      'load_bins',
      'integers',
      '',
      'usable readings by engine load: below 20 %, 20, 35, 50, 65, from 80; null where not known',
      't.load_bins',
    ),
    column(
      'heat_kw',
      'double',
      'kW',
      'mean slip power, where torque is known',
      't.heat_kw_sum / nullif(t.heat_n, 0)',
    ),
    column('heat_n', 'integer', '', 'readings in that mean', 't.heat_n'),
    column(
      'codes',
      'texts',
      '',
      'trouble codes seen',
      'array(select c.code from jsonb_object_keys(t.codes) c(code) order by 1)',
    ),
  ],
};
