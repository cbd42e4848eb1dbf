import { monitorEventLoopDelay } from 'node:perf_hooks';
import { afterAll, expect, it } from 'vitest';
import { vehicleCases } from '#tests/browser/fixtures/vehicle-cases.ts';
import { makeSeries } from '#tests/browser/fixtures/vehicle-series.ts';
import { makePacket } from '#tests/helpers/made-packet.ts';
import { readPdf } from '#tests/helpers/read-pdf.ts';
import { metricUnits } from '#web/format/units.ts';
import { createPacketPrinter } from './create-packet-printer.ts';
import type { PrintRequest } from './print-request.ts';

const printer = createPacketPrinter();
afterAll(() => printer.close());

const request: PrintRequest = {
  packet: makePacket(),
  series: makeSeries(vehicleCases.drifting!),
  trace: null,
  photos: [],
  size: 'a4',
  units: metricUnits,
  madeAt: '2026-03-04T10:00:00Z',
  timeZone: 'UTC',
};

it('prints off the main thread, one after another', { timeout: 60_000 }, async () => {
  await printer.print(request);
  const delay = monitorEventLoopDelay({ resolution: 5 });
  delay.enable();
  const printed = await Promise.all([printer.print(request), printer.print({ ...request, size: 'letter' })]);
  delay.disable();
  const sheets = await Promise.all(printed.map((pdf) => readPdf(pdf)));
  expect(sheets.map(({ pages }) => Math.round(pages[0]!.heightPt))).toEqual([842, 792]);
  // Printing takes some hundred ms: done here, it would hold the loop for all of them.
  expect(delay.percentile(99) / 1e6).toBeLessThan(150);
});

it('prints without a photo that is damaged, and names it', { timeout: 60_000 }, async () => {
  const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
  const damaged = new Uint8Array([...signature, ...Array.from({ length: 60 }, (_, at) => at)]);
  const pdf = await printer.print({
    ...request,
    photos: [{ name: 'pan.png', type: 'image/png', bytes: damaged }],
  });
  const { pages } = await readPdf(pdf);
  expect(pages.map(({ words }) => words).join(' ')).toContain('not printed here: pan.png');
  expect((await readPdf(await printer.print(request))).pages.length).toBeGreaterThan(3);
});
