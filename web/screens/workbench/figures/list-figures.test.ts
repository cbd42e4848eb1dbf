import { describe, expect, it } from 'vitest';
import { trendRequest } from '#server/contract/analysis.ts';
import { livesRequest } from '#server/contract/lives.ts';
import { analyseLives } from '#server/services/analysis/analyse-lives.ts';
import { analyseTrend } from '#server/services/analysis/analyse-trend.ts';
import { readCase } from '#tests/published/published-case.ts';
import { listLivesDeclined, listLivesFigures } from './list-lives-figures.ts';
import { listTrendFigures, sayTrend } from './list-trend-figures.ts';
import { thinGroup } from './thin-group.ts';

const trendOf = (x: number[], y: number[]) => analyseTrend(trendRequest.parse({ x, y }));

describe('figures of a series', () => {
  const { x, y } = readCase('02-theil-epa-17-6-sulfate').input as { x: number[]; y: number[] };

  it('have what the guidance prints, each with its meaning (USEPA 2009, example 17-6)', () => {
    const { rows } = listTrendFigures(trendOf(x, y));
    const slope = rows.find(([part, name]) => part === 'Theil-Sen' && name === 'slope');
    expect(slope).toEqual(['Theil-Sen', 'slope', '26.667', expect.stringContaining('median of the slopes')]);
    expect(rows.every((row) => row.length === 4 && row[3] !== '')).toBe(true);
    expect(new Set(rows.map(([part]) => part)).size).toBe(8);
  });

  it('are told in sentences', () => {
    expect(sayTrend(trendOf(x, y), { x: 'year', y: 'ppm' })[0]).toBe(
      'It rises: 26.7 ppm for one year (Theil-Sen; 95 %: 20.0 to 35.8).',
    );
    const flat = sayTrend(trendOf([1, 2, 3, 4, 5, 6], [5, 7, 5, 6, 7, 5]), { x: 'x', y: 'y' });
    expect(flat[0]).toMatch(/^No slope can be told from none: /);
  });
});

describe('figures of lives', () => {
  const { time, cause } = readCase('14-cif-shock-absorber').input as { time: number[]; cause: number[] };
  const lives = time.map((exit, i) => ({
    exit,
    event: cause[i] !== 0,
    ...(cause[i] === 0 ? {} : { mode: `M${cause[i]}` }),
    group: i % 2 === 0 ? 'p' : 'q',
  }));

  it('have a column each group, the modes, and the group test', () => {
    const reply = analyseLives(livesRequest.parse({ lives }));
    const tables = listLivesFigures(reply);
    expect(tables.map(({ caption }) => caption.split(/[,:]/)[0])).toEqual([
      'By group',
      'Weibull by mode',
      'Log-rank test',
    ]);
    expect(tables[0]?.columns.map(({ title }) => title)).toEqual(['figure', 'p', 'q']);
    expect(tables[0]?.rows[0]).toEqual(['lives', '19', '19']);
    for (const { columns, rows } of tables) {
      expect(new Set(columns.map(({ title }) => title)).size).toBe(columns.length);
      expect(rows.every((row) => row.length === columns.length)).toBe(true);
    }
  });

  it('have the shape and scale of the book for all (Meeker and Escobar 1998, chapter 8)', () => {
    const reply = analyseLives(livesRequest.parse({ lives: lives.map(({ group: _, ...life }) => life) }));
    const rows = new Map(listLivesFigures(reply)[0]?.rows.map(([name, value]) => [name, value]));
    // mu 10.23 and sigma 0.316 as printed: scale exp(mu), shape 1 / sigma.
    expect(Number(rows.get('Weibull shape'))).toBeCloseTo(1 / 0.316, 1);
    expect(Math.log(Number(rows.get('Weibull scale')?.replace(',', '')))).toBeCloseTo(10.23, 2);
  });

  it('say once what several groups lack', () => {
    const plain = lives.map(({ exit, event, group }) => ({ exit, event, group }));
    const declined = listLivesDeclined(analyseLives(livesRequest.parse({ lives: plain })));
    expect(declined.map(({ what }) => what)).toEqual(['Incidence of modes, p, q']);
    const tied = lives.map((life) => ({ ...life, covariates: { same: 1 } }));
    const asked = listLivesDeclined(analyseLives(livesRequest.parse({ lives: tied })));
    expect(asked.map(({ what }) => what)).toContain('Cox regression');
  });

  it('are drawn with as many steps as can be seen, every failure counted', () => {
    const many = Array.from({ length: 5000 }, (_, i) => ({ exit: i + 1, event: i % 2 === 0, mode: 'M1' }));
    const [group] = analyseLives(livesRequest.parse({ lives: many })).groups;
    const thinned = thinGroup(group!);
    const sum = (points: readonly { events: number }[]) => points.reduce((all, one) => all + one.events, 0);
    expect(thinned.kaplan_meier).toHaveLength(600);
    expect(sum(thinned.kaplan_meier)).toBe(2500);
    expect(thinned.kaplan_meier.at(-1)).toMatchObject({
      x: 4999,
      survival: group!.kaplan_meier.at(-1)!.survival,
    });
    expect(thinned.cumulative_incidence[0]?.points).toHaveLength(600);
  });
});
