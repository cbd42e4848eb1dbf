import { column, type NotebookView } from './view.ts';

/** Mileage by which a share has failed, of a Weibull life. */
const quantileKm = (survival: number) => `f.scale_km * power(-ln(${survival}::float8), 1 / f.shape)`;

export const lifeFitsView: NotebookView = {
  name: 'life_fits',
  meaning:
    'Converter life of each platform as it was fitted (Weibull); the newest is what the list reckons with',
  from: 'public.life_fits f',
  order: 'f.platform, f.fitted_at',
  narrow: {
    platform: 'f.platform',
    since: { meaning: 'fits of that day or later', condition: (parameter) => `f.fitted_at >= ${parameter}` },
  },
  columns: [
    column('platform', 'text', '', 'platform; null for vehicles that have none', "nullif(f.platform, '')"),
    column('fitted_at', 'instant', '', 'when it was fitted', 'f.fitted_at'),
    column(
      'basis',
      'text',
      '',
      'own, shared_shape, fleet or expected: whose failures it rests on',
      'f.basis',
    ),
    column('lives', 'integer', '', 'lives of the platform that were watched', 'f.lives'),
    column('failures', 'integer', '', 'of these, failed', 'f.failures'),
    column('fleet_failures', 'integer', '', 'failures of the whole fleet', 'f.fleet_failures'),
    column('shape', 'double', '', 'Weibull shape', 'f.shape'),
    column('scale_km', 'double', 'km', 'Weibull scale: 63.2 % have failed by then', 'f.scale_km'),
    column('b10_km', 'double', 'km', '10 % have failed by then', quantileKm(0.9)),
    column('b50_km', 'double', 'km', '50 % have failed by then', quantileKm(0.5)),
    column(
      'var_log_scale',
      'double',
      '',
      'variance of log scale; null where the life was not fitted',
      'f.var_log_scale',
    ),
    column('var_log_shape', 'double', '', 'variance of log shape', 'f.var_log_shape'),
    column('cov_logs', 'double', '', 'covariance of both', 'f.cov_logs'),
  ],
};

const score = (field: string) => `(s.score ->> '${field}')`;
const spread = (field: string, quantile: string) => `(s.score -> '${field}' ->> '${quantile}')::float8`;

export const replayScoresView: NotebookView = {
  name: 'replay_scores',
  meaning: 'Replays that are done: how the list, and plain rules, would have done; a row for each',
  from: `public.replays r cross join lateral jsonb_array_elements(r.result -> 'scores')
    with ordinality s(score, place)`,
  order: 'r.id, s.place',
  narrow: {
    since: {
      meaning: 'replays asked for on that day or later',
      condition: (parameter) => `r.asked_at >= ${parameter}`,
    },
  },
  columns: [
    column('replay', 'long', '', 'number of the replay', 'r.id'),
    column('asked_at', 'instant', '', 'when it was asked for', 'r.asked_at'),
    column('first_day', 'day', '', 'first day that was looked at, UTC', "(r.result ->> 'from')::date"),
    column('last_day', 'day', '', 'last day', "(r.result ->> 'to')::date"),
    column('horizon_km', 'double', 'km', 'horizon', "(r.result ->> 'horizon_km')::float8"),
    column('vehicles', 'integer', '', 'with readings in the period', "(r.result ->> 'vehicles')::integer"),
    column('failures', 'integer', '', 'that came in the period', "(r.result ->> 'failures')::integer"),
    column('rule', 'text', '', 'list, slip_level or weekly_rise', score('rule')),
    column(
      'threshold',
      'double',
      '% or rpm',
      'of the rule: share of the limit, or rise in a week; null for the list',
      `${score('threshold')}::float8`,
    ),
    column(
      'asked',
      'integer',
      '',
      'inspections asked for; one that stands is another after each horizon driven',
      `${score('asked')}::integer`,
    ),
    column('found', 'integer', '', 'failures that were asked for before', `${score('found')}::integer`),
    column('missed', 'integer', '', 'failures that were not', `${score('missed')}::integer`),
    column(
      'right_asked',
      'integer',
      '',
      'asked for, and a failure came of it, in the period or after, or had come before',
      `${score('right')}::integer`,
    ),
    column(
      'early',
      'integer',
      '',
      'asked for over a horizon before anything came, of a clutch that did slip',
      `${score('early')}::integer`,
    ),
    column('needless', 'integer', '', 'asked for, and nothing came of it', `${score('needless')}::integer`),
    column(
      'undecided',
      'integer',
      '',
      'asked for, and not driven far enough since to tell',
      `${score('undecided')}::integer`,
    ),
    column(
      'notice_km_p10',
      'double',
      'km',
      'notice before the failure, up to the horizon, 10 %',
      spread('notice_km', 'p10'),
    ),
    column('notice_km_p50', 'double', 'km', 'notice, 50 %', spread('notice_km', 'p50')),
    column('notice_km_p90', 'double', 'km', 'notice, 90 %', spread('notice_km', 'p90')),
    column('notice_days_p50', 'double', 'days', 'notice, 50 %', spread('notice_days', 'p50')),
    column(
      'avoided',
      'double',
      "fleet's currency",
      'road failures less planned repairs, of those found',
      `${score('avoided')}::float8`,
    ),
    column(
      'spent',
      'double',
      "fleet's currency",
      'inspections and days off the road',
      `${score('spent')}::float8`,
    ),
    column('saved', 'double', "fleet's currency", 'avoided less spent', `${score('saved')}::float8`),
  ],
};
