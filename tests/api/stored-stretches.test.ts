import { expect, it } from 'vitest';
import { readBandStretches } from '#db/queries/read-own-stretches.ts';
import { readStretches } from '#db/queries/read-stretches.ts';
import { replaceStretches, type StoredTotal, writeStretch } from '#db/queries/replace-stretches.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import { createTestDatabase } from '#tests/helpers/database.ts';
import { makeStretch } from '#tests/helpers/make-stretch.ts';

const total = (stretch: number): StoredTotal => ({
  life: 1,
  stretch,
  firstAtMs: Date.UTC(2025, 0, 6),
  lastAtMs: Date.UTC(2025, 0, 7),
  usable: 8,
  setAside: {},
  fluidBins: [],
  loadBins: null,
  heatKwSum: 0,
  heatN: 0,
  heatSpeedSum: 0,
  codes: {},
});

it('answers stretches as they were stored, of each vehicle by itself and in order', async () => {
  const { db, drop } = await createTestDatabase();
  try {
    const own: [vehicle: number, stretch: number, rows: StretchRow[]][] = [
      [7, 201, [makeStretch(1, 21.125, { fluidC: null })]],
      [7, 200, [makeStretch(0, 20, { loadPct: null }), makeStretch(0, 1 / 3, { band: 2, n: 70_000 })]],
      [9, 200, [makeStretch(0, -3, { fluidC: null, loadPct: null, life: 2 })]],
    ];
    const written = own.map(([vehicle, stretch, rows]) =>
      writeStretch(
        vehicle,
        total(stretch),
        rows.map((row) => ({ ...row, stretch })),
      ),
    );
    await db.transaction((transaction) => replaceStretches(transaction, [], written));
    const found = await readStretches(db, [9, 8, 7]);
    expect(found.of(7)).toEqual(
      [makeStretch(0, 20, { loadPct: null }), makeStretch(1, 21.125, { fluidC: null }), own[1]?.[2][1]].map(
        (row) => ({ ...row, vehicle: 7 }),
      ),
    );
    expect(found.of(9)).toEqual([{ ...own[2]?.[2][0], vehicle: 9 }]);
    expect(found.of(8)).toEqual([]);
    expect(found.all()).toEqual([found.of(7), found.of(9)]);
    expect(found.of(7).filter(({ band }) => band === -1)).toEqual(await readBandStretches(db, [7], -1));
    expect((await readStretches(db, [])).all()).toEqual([]);
    expect((await readStretches(db, [9])).all()).toEqual([found.of(9)]);
  } finally {
    await drop();
  }
});
