import { beforeAll, describe, expect, it, vi } from 'vitest';
import { makeDetail } from '#tests/browser/fixtures/vehicle-answers.ts';
import { vehicleCases } from '#tests/browser/fixtures/vehicle-cases.ts';
import { makeSeries } from '#tests/browser/fixtures/vehicle-series.ts';
import { makeBarePacket, makePacket, makeTrace } from '#tests/helpers/made-packet.ts';
import { type PdfPage, readPdf } from '#tests/helpers/read-pdf.ts';
import { metricUnits } from '#web/format/units.ts';
import { makePacketPdf } from './make-packet-pdf.ts';
import type { PrintRequest } from './print-request.ts';

const drifting = vehicleCases.drifting!;
/** One red point: the smallest PNG of RGB colour. */
const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAIAAACQd1PeAAAADElEQVR4nGP4z8AAAAMBAQDJ/pLvAAAAAElFTkSuQmCC',
  'base64',
);

const request = (more: Partial<PrintRequest> = {}): PrintRequest => ({
  packet: makePacket({ vehicle: makeDetail(drifting).vehicle }),
  series: makeSeries(drifting),
  trace: makeTrace(),
  photos: [],
  size: 'a4',
  units: metricUnits,
  madeAt: '2026-03-04T10:00:00Z',
  timeZone: 'Europe/Berlin',
  ...more,
});

const print = async (more: Partial<PrintRequest> = {}) => readPdf(await makePacketPdf(request(more)));

const wordsOf = (pages: readonly PdfPage[]) => pages.map(({ words }) => words).join(' ');
const EDGE_PT = 40;
const FOOT_PT = 48;
const HEAD_PT = 40;
/** 6 mm: printers of offices leave about as much white. From memory. */
const UNPRINTED_PT = 17;

// Drawing and reading back take seconds where the processors are shared.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

/** Text between header and footer. */
const bodyOf = ({ texts, heightPt }: PdfPage) =>
  texts.filter(({ y }) => y > FOOT_PT - 4 && y < heightPt - HEAD_PT);

/** Sections as they stand in the sample, in their order. */
const titles = [
  'Why it was flagged',
  'Slip at the reference point against mileage',
  'Slip by command, then and now',
  'Trouble codes seen',
  'Temperature and load of this converter',
  'Converter lives',
  'Earlier findings on this vehicle',
  'Earlier findings on others of Morvelt 12 t',
  'Cautions',
  'Test steps, from cheap and outside',
  'Recorded road test',
  'Which step leads where',
  'Converter, price and deposit',
  'Report of the shop, so far',
];

const expectNothingLost = (pages: readonly PdfPage[]) => {
  for (const page of pages) {
    expect(bodyOf(page).length, 'no page is empty').toBeGreaterThan(0);
    for (const { text, x, y, width } of page.texts) {
      expect(x, text).toBeGreaterThanOrEqual(EDGE_PT - 2);
      expect(x + width, text).toBeLessThanOrEqual(page.widthPt - EDGE_PT + 4);
      expect(y, text).toBeGreaterThan(UNPRINTED_PT);
    }
  }
};

/** A title has something of its own below it on the same page. */
const expectNoOrphans = (pages: readonly PdfPage[], sought: readonly string[]) => {
  for (const title of sought) {
    const page = pages.find(({ texts }) => texts.some(({ text }) => text.startsWith(title)));
    const heading = page?.texts.find(({ text }) => text.startsWith(title));
    if (page === undefined || heading === undefined) expect.fail(`${title} is on no page`);
    const below = bodyOf(page).filter(({ y }) => y < heading.y - 6);
    expect(below.length, title).toBeGreaterThan(0);
  }
};

describe.each([
  { size: 'a4', widthPt: 595.28, heightPt: 841.89 },
  { size: 'letter', widthPt: 612, heightPt: 792 },
] as const)('a packet on $size', ({ size, widthPt, heightPt }) => {
  let pdf: Awaited<ReturnType<typeof readPdf>>;
  beforeAll(async () => {
    pdf = await print({ size });
  });

  it('has sheets of that size, numbered and named', () => {
    pdf.pages.forEach((page, at) => {
      expect(page.widthPt).toBeCloseTo(widthPt, 1);
      expect(page.heightPt).toBeCloseTo(heightPt, 1);
      expect(page.words).toContain(`page ${at + 1} of ${pdf.pages.length}`);
      expect(page.words).toContain(`Unit ${drifting.vehicle}`);
      expect(page.words).toContain('does not clear a vehicle as safe');
      expect(page.words).toContain('made 4 Mar 2026, 11:00');
    });
    expect(pdf.title).toContain(drifting.vehicle);
  });

  it('says on the first page which, when, how urgent and why', () => {
    const { packet } = request();
    const [first] = pdf.pages;
    for (const words of [
      packet.vehicle,
      'Morvelt 12 t',
      'Harrow Vale',
      'Thursday 5 March 2026 at 08:00',
      'Driver tells of a shudder',
      'book',
      'within the horizon',
      'limit in 1,900 to 5,200 km',
      ...packet.flag.reasons,
      packet.flag.pattern_words,
    ])
      expect(first?.words).toContain(words);
  });

  it('holds every part, in order, none cut off and no title left alone', () => {
    const all = wordsOf(pdf.pages);
    const places = titles.map((title) => all.indexOf(title));
    expect(
      places.every((place) => place >= 0),
      titles.filter((_, at) => places[at] === -1).join(),
    ).toBe(true);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expectNothingLost(pdf.pages);
    expectNoOrphans(pdf.pages, titles);
  });

  it('says every caution, and each step with what for, how, and its finding or lines to write on', () => {
    const { packet } = request();
    const all = wordsOf(pdf.pages);
    for (const caution of packet.cautions) expect(all).toContain(caution);
    for (const [at, step] of packet.steps.entries())
      expect(all).toContain(`${at + 1}  ${step.title}`.replace('  ', ' '));
    expect(all).toContain('Found (failed): Slips at 118 rpm');
    expect(all).toContain('24 V / 20.5 ohm = 1.17 A');
    expect(all).toContain('smallest step');
    expect(all.split('Caution Hot fluid')).toHaveLength(6);
  });

  it('draws the way taken through the decision tree', () => {
    const all = wordsOf(pdf.pages);
    for (const words of ['found: Right', 'found: Slips', 'do this next', 'Coolant in the fluid'])
      expect(all).toContain(words);
  });

  it('draws charts as lines, with fonts of its own', () => {
    expect(pdf.pages.reduce((sum, { images }) => sum + images, 0)).toBe(0);
    expect(pdf.pages[0]?.paths).toBeGreaterThan(100);
    expect(pdf.pages[0]?.words).toContain('limit 150 rpm');
    expect(pdf.missingFonts).toEqual([]);
    expect(pdf.fonts.length).toBeGreaterThan(1);
    for (const font of pdf.fonts) expect(font).toMatch(/AtkinsonHyperlegibleNext/);
  });
});

it('prints a vehicle of which nothing is known, with room to write', async () => {
  const { pages } = await print({ packet: makeBarePacket(), series: null, trace: null });
  const all = wordsOf(pages);
  for (const words of [
    'unknown',
    'too little to say',
    'No readings of this vehicle to draw',
    'None that you may see',
  ])
    expect(all).toContain(words);
  expect(all).toContain('what turned out to be wrong');
  expectNothingLost(pages);
});

it('speaks in the units of the reader', async () => {
  const packet = makePacket();
  const [part] = packet.report.parts;
  const [first, second] = packet.lives;
  if (part === undefined || first === undefined || second === undefined) expect.fail('no part, or no lives');
  part.source = 'used';
  part.run_km = 118_000;
  second.source = 'used';
  second.run_km = 64_000;
  const { pages } = await print({ packet, units: { distance: 'mi', temperature: 'F' } });
  const all = wordsOf(pages);
  // 118,000 and 64,000 km over 1.609344
  expect(all).toContain('had run 73,322 mi before');
  expect(all).toContain('had run 39,768 mi');
  expectNothingLost(pages);
  expect(all).toContain('odometer, thousand mi');
  expect(all).toContain('fluid, °F');
  expect(all).toContain('limit in 1,200 to 3,200 mi');
});

it('tells times of the depot, and of UTC where its zone is not known', async () => {
  const { pages } = await print({ timeZone: 'Nowhere/Atall' });
  expect(pages[0]?.words).toContain('made 4 Mar 2026, 10:00, UTC');
});

it('loses no text to letters that the fonts lack', async () => {
  const { pages } = await print({
    packet: makePacket({
      vehicle: 'Ж-7 👩‍🔧',
      note: 'Erdős Muñoz: тест 車 🚚, 20 Ω',
      flag: { ...makePacket().flag, sentence: 'Slip < 12 & rising > "so"' },
    }),
  });
  const note = pages[0]?.words.replaceAll(' ', '') ?? '';
  expect(note).toContain('ErdősMuñoz:?????,20ohm'.replace('?????', '??????'));
  expect(pages[0]?.words).toContain('?-7 ?');
  expect(pages[0]?.words).toContain('Slip < 12 & rising > "so"');
});

it('keeps a packet of many and long parts within its pages', async () => {
  const packet = makePacket();
  const long = 'Shudder at steady speed, uphill, with the fluid hot. '.repeat(19).slice(0, 1000);
  const [code] = packet.flag.codes;
  const [sister] = packet.sisters;
  const [life] = packet.lives;
  const [part] = packet.report.parts;
  const { pages } = await print({
    packet: makePacket({
      vehicle: 'W'.repeat(64),
      note: long.slice(0, 500),
      flag: {
        ...packet.flag,
        codes: Array.from({ length: 70 }, (_, at) => ({ ...code!, code: `P${String(at).padStart(4, '0')}` })),
      },
      lives: Array.from({ length: 12 }, (_, at) => ({ ...life!, life: at + 1 })),
      sisters: Array.from({ length: 12 }, () => sister!),
      steps: packet.steps.map((step) => ({
        ...step,
        finding: step.finding === null ? null : { ...step.finding, notes: long },
        earlier: Array.from({ length: 15 }, () => packet.steps[1]!.earlier[0]!),
      })),
      report: {
        parts: Array.from({ length: 40 }, () => part!),
        cooler: {
          done: 'flushed',
          minutes: 20,
          method: 'pumped_through_filter',
          both_directions: true,
          filter_clean: true,
          flow_before_l_min: 2.1,
          flow_after_l_min: 4.6,
          notes: long,
        },
        teardown: { cause: 'lining_worn', cut_open: true, notes: `${long}${long}` },
      },
    }),
  });
  expectNothingLost(pages);
  const all = wordsOf(pages);
  expect(all).toContain('P0069');
  expect(all).toContain('and 11 older');
  expect(all).toContain('pumped through a catch filter, 20 min, both directions');
  expect(all.replaceAll(' ', '')).toContain('W'.repeat(64));
});

it('prints photos small, and names those that it cannot print', async () => {
  const { pages } = await print({
    photos: [
      { name: 'pan-1.png', type: 'image/png', bytes: png },
      { name: 'pan-2.png', type: 'image/png', bytes: png },
      { name: 'shot.heic', type: 'image/heic', bytes: new Uint8Array([0, 0, 0, 24]) },
    ],
  });
  expect(pages.reduce((sum, { images }) => sum + images, 0)).toBe(2);
  expect(wordsOf(pages)).toContain('Kept with the packet, not printed here: shot.heic');
});

it('says how a closed job ended', async () => {
  const { pages } = await print({
    packet: makePacket({
      state: 'closed',
      closing: {
        outcome: 'repaired',
        at: '2026-03-06T15:00:00Z',
        by: 'Mira Okonjo',
        work_at: '2026-03-06T12:00:00Z',
        odometer_km: 371_260,
        cause: 'lining_worn',
        cause_words: 'Clutch lining worn or glazed',
        reason: '',
        without_cooler: 'The cooler is new.',
        calm_until_km: null,
        ended: 'failed',
        new_life: 3,
      },
      after: {
        state: 'too_early',
        words: 'Too early to say whether slip is as on healthy vehicles.',
        km_since: 40,
        needed_km: 1000,
        slip_rpm: null,
        healthy_rpm: null,
      },
    }),
  });
  const all = wordsOf(pages);
  for (const words of [
    'Repaired: Clutch lining worn or glazed',
    'Closed without the cooler record: The cooler is new.',
    'Too early to say',
  ])
    expect(all).toContain(words);
  expect(all).not.toContain('Signed off');
});

it('is the same twice', async () => {
  const [once, twice] = [await makePacketPdf(request()), await makePacketPdf(request())];
  expect(Buffer.from(once).equals(Buffer.from(twice))).toBe(true);
});
