import type { Ranking, RankingRow } from '#server/contract/ranking.ts';

/** Pages as one list. A vehicle that moved between two pages while they were fetched stands once. */
export function joinRows(pages: readonly Ranking[]): RankingRow[] {
  const seen = new Set<string>();
  const rows: RankingRow[] = [];
  for (const page of pages)
    for (const row of page.rows) {
      if (seen.has(row.vehicle)) continue;
      seen.add(row.vehicle);
      rows.push(row);
    }
  return rows;
}
