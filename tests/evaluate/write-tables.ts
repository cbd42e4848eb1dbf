import { measureMedian } from '#server/engine/robust/measure-median.ts';
import type { FleetScore } from './score-fleet.ts';
import { errorOf, isCovered, type Summary, summariseScores, type Way, ways } from './summarise-scores.ts';

/** The quality table of some fleets, as Markdown: what is measured, what must be reached, the engine, the plain rules. */
export function writeQualityTable(title: string, summary: Summary): string {
  const across = (figures: Record<Way, number>, write: (value: number) => string) =>
    ways.map((way) => write(figures[way]));
  const rows: string[][] = [
    ['average precision over the oracle’s, worst fleet', '0.97', figure(summary.leastOfOracle), '', '', ''],
    [
      'average precision, mean of the fleets',
      `oracle ${figure(summary.oracle)}`,
      ...across(summary.averagePrecision, figure),
    ],
    ['healthy vehicles flagged', '≤ 1 %', ...across(summary.healthyFlagged, percent)],
    ['vehicles within 2,000 km flagged', '≥ 95 %', ...across(summary.nearFlagged, percent)],
    ['80 % interval holds the truth', '75–88 %', percent(summary.covered80), '', '', ''],
    ['median error of the middle', '≤ 35 %', percent(summary.error), '', '', percent(summary.errorOfLine)],
    ['kilometres of notice, median', '≥ 4,000', ...across(summary.noticeKm, whole)],
  ];
  return [
    `${title}: ${summary.fleets} fleets, ${whole(summary.vehicles)} vehicles, ${summary.forecasts} forecasts, ${summary.crossings} crossings`,
    '',
    ...table(['measure', 'must reach', 'Slipdrift', 'level', '30-day change', 'straight line'], rows),
  ].join('\n');
}

/** One line a fleet. */
export function writeFleetTable(scores: readonly FleetScore[]): string {
  const head = [
    'fleet',
    'wanted',
    'oracle',
    ...ways,
    'healthy flagged',
    'near flagged',
    'held 80 %',
    'error',
    'notice km',
  ];
  return table(
    head,
    scores.map((one) => {
      const { forecasts } = summariseScores([one]);
      return [
        one.name,
        `${one.wanted}`,
        figure(one.oracle),
        ...ways.map((way) => figure(one[way].averagePrecision)),
        `${one.engine.healthy.hit} of ${one.engine.healthy.of}`,
        `${one.engine.near.hit} of ${one.engine.near.of}`,
        `${one.forecasts.filter(isCovered).length} of ${forecasts}`,
        percent(measureMedian(one.forecasts.map(errorOf))),
        whole(measureMedian(one.engine.noticeKm)),
      ];
    }),
  ).join('\n');
}

/** How the forecasts did by the law of wear behind them. */
export function writeWearTable(scores: readonly FleetScore[]): string {
  const forecasts = scores.flatMap((one) => one.forecasts);
  const laws = [...new Set(forecasts.map((one) => one.wear))].sort();
  return table(
    ['wear', 'forecasts', 'held 80 %', 'too long', 'too short', 'median error'],
    laws.map((law) => {
      const some = forecasts.filter((one) => one.wear === law);
      const share = (test: (one: (typeof some)[number]) => boolean) =>
        percent(some.filter(test).length / some.length);
      return [
        law,
        `${some.length}`,
        share(isCovered),
        share((one) => one.p10 === null || one.truthKm < one.p10),
        share((one) => one.p90 !== null && one.truthKm > one.p90),
        percent(measureMedian(some.map(errorOf))),
      ];
    }),
  ).join('\n');
}

const EDGES = [0, 0.02, 0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 1] as const;

/**
 * Chances of crossing within 5,000 km as they were stated at the looks, in bins, against what came by the truth: of clutches
 * that had not crossed, and of all. Looks at converters that the list cannot know of yet are only counted.
 */
export function writeChanceTable(scores: readonly FleetScore[]): string {
  const stated = scores.flatMap((one) =>
    one.stated.map((look) => ({ ...look, vehicle: `${one.name} ${look.unit}` })),
  );
  const lines = table(
    [
      'stated',
      'looks',
      'vehicles',
      'mean stated',
      'came',
      'with those past it',
      'mean stated',
      'came',
      'new',
    ],
    EDGES.slice(0, -1).map((from, i) => {
      const to = EDGES[i + 1] ?? 1;
      const some = stated.filter(({ chance }) => chance >= from && (chance < to || to === 1));
      const known = some.filter(({ isNew }) => !isNew);
      const open = known.filter(({ isPast }) => !isPast);
      const mean = (of: typeof some, value: (one: (typeof some)[number]) => number) =>
        percent(of.reduce((sum, one) => sum + value(one), 0) / of.length);
      const compare = (of: typeof some) => [
        mean(of, ({ chance }) => chance),
        mean(of, ({ came }) => (came ? 1 : 0)),
      ];
      return [
        `${100 * from} to ${100 * to} %`,
        whole(open.length),
        whole(new Set(open.map(({ vehicle }) => vehicle)).size),
        ...compare(open),
        whole(known.length),
        ...compare(known),
        whole(some.length - known.length),
      ];
    }),
  );
  return lines.join('\n');
}

function table(head: string[], rows: string[][]): string[] {
  const widths = head.map((cell, i) => Math.max(cell.length, ...rows.map((row) => (row[i] ?? '').length)));
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join(' | ')} |`;
  return [line(head), `| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`, ...rows.map(line)];
}

const figure = (value: number) => (Number.isFinite(value) ? value.toFixed(3) : '–');
const percent = (value: number) => (Number.isFinite(value) ? `${(100 * value).toFixed(1)} %` : 'none');
const whole = (value: number) => (Number.isFinite(value) ? Math.round(value).toLocaleString('en') : '–');
