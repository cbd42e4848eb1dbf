import type { Bounded, LivesGroup, LivesReply } from '#server/contract/lives.ts';
import type { NumbersTable } from '#web/charts/numbers.ts';
import { sayFigure } from '#web/charts/trend-view.ts';
import { noFigure } from '#web/format/format-number.ts';

type Cell = number | null | undefined;

const word = (title: string) => ({ title, kind: 'word' as const });
const figure = (title: string) => ({ title, kind: 'figure' as const });
const say = (value: Cell): string => (value === null || value === undefined ? noFigure : sayFigure(value));

const bounds = (
  name: string,
  read: (group: LivesGroup) => { estimate: number; low: Cell; high: Cell } | null | undefined,
) =>
  [
    [name, (group: LivesGroup) => read(group)?.estimate],
    [`${name}, low`, (group: LivesGroup) => read(group)?.low],
    [`${name}, high`, (group: LivesGroup) => read(group)?.high],
  ] as const;
const span = (estimate: number, low: number, high: number): Bounded => ({ estimate, low, high });

const figuresOfGroup: readonly (readonly [string, (group: LivesGroup) => Cell])[] = [
  ['lives', ({ n }) => n],
  ['failed', ({ events }) => events],
  ['seen late', ({ late_entries }) => late_entries],
  ['use watched', ({ exposed }) => exposed],
  ...bounds('median', ({ median }) => median),
  ...bounds('Weibull shape', ({ weibull: w }) => w && span(w.shape, w.shape_low, w.shape_high)),
  ...bounds('Weibull scale', ({ weibull: w }) => w && span(w.scale, w.scale_low, w.scale_high)),
  ...bounds('Weibull B10', ({ weibull }) => weibull?.b10),
  ...bounds('Weibull B50', ({ weibull }) => weibull?.b50),
  ['Weibull log likelihood', ({ weibull }) => weibull?.loglik],
  ['lognormal mu', ({ lognormal }) => lognormal?.mu],
  ['error of mu', ({ lognormal }) => lognormal?.se_mu],
  ...bounds('lognormal sigma', ({ lognormal: l }) => l && span(l.sigma, l.sigma_low, l.sigma_high)),
  ...bounds('lognormal B10', ({ lognormal }) => lognormal?.b10),
  ...bounds('lognormal B50', ({ lognormal }) => lognormal?.b50),
  ['lognormal log likelihood', ({ lognormal }) => lognormal?.loglik],
];

/** Every figure of the answer as tables: by group, by mode, group test, exposures. */
export function listLivesFigures(reply: LivesReply): NumbersTable[] {
  const modes = reply.groups.flatMap((group) => group.weibull_by_mode.map((mode) => ({ group, mode })));
  return [
    {
      caption: 'By group',
      columns: [word('figure'), ...reply.groups.map(({ name }) => figure(name))],
      rows: figuresOfGroup
        .map(([name, read]) => [name, ...reply.groups.map((group) => say(read(group)))])
        .filter(([, ...figures]) => figures.some((one) => one !== noFigure)),
    },
    ...(modes.length === 0
      ? []
      : [
          {
            caption: 'Weibull by mode, failures of the others taken as running on',
            columns: [
              word('group'),
              word('mode'),
              ...['failed', 'shape', 'shape, low', 'shape, high', 'B10', 'B10, low', 'B10, high'].map(figure),
            ],
            rows: modes.map(({ group, mode: { mode, events, weibull: w } }) => [
              group.name,
              mode,
              ...[
                events,
                w?.shape,
                w?.shape_low,
                w?.shape_high,
                w?.b10.estimate,
                w?.b10.low,
                w?.b10.high,
              ].map(say),
            ]),
          },
        ]),
    ...(reply.logrank === null
      ? []
      : [
          {
            caption: `Log-rank test: chi-squared ${say(reply.logrank.chisq)}, ${reply.logrank.df} ${reply.logrank.df === 1 ? 'degree' : 'degrees'} of freedom, p ${say(reply.logrank.p)}`,
            columns: [word('group'), figure('failed'), figure('expected where groups do not differ')],
            rows: reply.logrank.groups.map((one) => [one.name, say(one.observed), say(one.expected)]),
          },
        ]),
    ...(reply.cox === null
      ? []
      : [
          {
            caption: `Cox regression (Efron) of ${reply.cox.n} lives, ${reply.cox.events} failed: likelihood ratio ${say(reply.cox.lr_chisq)}, p ${say(reply.cox.p)}`,
            columns: [
              word('exposure'),
              ...['coefficient', 'error', 'z', 'p', 'hazard ratio', 'low', 'high', 'mean', 'sd'].map(figure),
            ],
            rows: reply.cox.terms.map((term) => [
              term.name,
              ...[
                term.coef,
                term.se,
                term.z,
                term.p,
                term.hazard_ratio,
                term.low,
                term.high,
                term.mean,
                term.sd,
              ].map(say),
            ]),
          },
        ]),
  ];
}

export interface DeclinedLine {
  what: string;
  reason: string;
  needed: string;
  got: string;
}

const partNames = {
  weibull: 'Weibull fit',
  lognormal: 'Lognormal fit',
  cumulative_incidence: 'Incidence of modes',
  logrank: 'Group test',
  cox: 'Cox regression',
} as const;

type Why = Omit<DeclinedLine, 'what'>;

/** One group, or no exposure chosen: then nobody asked for it. */
const isAsked = (part: 'logrank' | 'cox', { groups, declined }: LivesReply): boolean =>
  part === 'logrank' ? groups.length > 1 : declined.cox?.reason !== 'no covariates';

/** What was asked for and could not be had, of which groups, and what would be needed. Groups that lack the same stand in one line. */
export function listLivesDeclined(reply: LivesReply): DeclinedLine[] {
  const found = new Map<string, { part: string; of: string[]; why: Why }>();
  const add = (part: string, of: string, why: Why) => {
    const key = `${part}|${why.reason}|${why.needed}`;
    const known = found.get(key);
    if (known === undefined) found.set(key, { part, of: [of], why });
    else known.of.push(of);
  };
  for (const group of reply.groups) {
    for (const part of ['weibull', 'lognormal', 'cumulative_incidence'] as const) {
      const why = group.declined[part];
      if (why !== undefined) add(partNames[part], group.name, why);
    }
    for (const { mode, declined } of group.weibull_by_mode)
      if (declined !== null) add(`Weibull fit of mode ${mode}`, group.name, declined);
  }
  return [
    ...(['logrank', 'cox'] as const).flatMap((part) => {
      const why = reply.declined[part];
      return why === undefined || !isAsked(part, reply) ? [] : [{ what: partNames[part], ...why }];
    }),
    ...[...found.values()].map(({ part, of, why }) => ({
      ...why,
      what: `${part}, ${of.join(', ')}`,
      got: of.length === 1 ? why.got : `${why.got} in ${of[0]}, as little in the others`,
    })),
  ];
}
