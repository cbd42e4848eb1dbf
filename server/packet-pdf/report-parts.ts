import type { Content } from 'pdfmake/interfaces.js';
import { causeWords, coreWords, partWords } from '#server/contract/packet-words.ts';
import type { Part } from '#server/contract/repair.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import {
  below,
  blank,
  blankLines,
  blankRow,
  factList,
  section,
  smallTitle,
  soft,
  strong,
  titledTable,
  together,
} from './blocks.ts';
import type { Paper } from './paper.ts';
import { coolerWords, methodWords } from './report-words.ts';

/** A price as it was paid, in the fleet's own currency. */
const sayPrice = (price: number | null): string =>
  price === null ? '–' : Number.isInteger(price) ? formatWhole(price) : price.toFixed(2);

export function writeParts({ packet }: Paper): Content {
  const { part_guide: guide } = packet;
  return section('Converter, price and deposit', {
    stack: [
      factList(
        [
          { name: 'Price', value: sayPrice(guide.price) },
          { name: 'Core deposit', value: sayPrice(guide.core_deposit) },
          { name: 'Supplier', value: guide.supplier ?? '–' },
          { name: 'Spare cores', value: formatWhole(guide.spare_cores) },
          ...(guide.known_from === null ? [] : [{ name: 'Known from', value: guide.known_from }]),
        ],
        76,
      ),
      ...(guide.words === '' ? [] : [{ text: guide.words, ...below(3) }]),
    ],
  });
}

/** Parts that stand on one page with the title of the report. */
const SHORT_LIST = 8;

export function writeReport(paper: Paper): Content {
  const { report, closing } = paper.packet;
  const title = closing === null ? 'Report of the shop, so far' : 'Report of the shop';
  const head = closing === null ? [] : writeClosing(paper);
  const parts =
    report.parts.length === 0
      ? together(smallTitle('Parts fitted'), partBlanks(), partBlanks())
      : partTable(report.parts, paper);
  const isShort = report.parts.length <= SHORT_LIST;
  return section(
    title,
    { stack: isShort ? [...head, parts] : head },
    ...(isShort ? [] : [parts]),
    { stack: [smallTitle('Cooler and its lines'), ...writeCooler(paper)], unbreakable: true },
    { stack: [smallTitle('The old unit'), ...writeTeardown(paper)], unbreakable: true },
    ...(closing === null ? [signOff()] : []),
  );
}

const partBlanks = () =>
  blankRow([
    blank('part and number', 130),
    blank('new / rebuilt / used', 86),
    blank('used: had run', 60),
    blank('supplier'),
    blank('price', 50),
    blank('deposit', 50),
  ]);

const partTable = (parts: readonly Part[], { units }: Paper): Content =>
  titledTable(
    smallTitle('Parts fitted'),
    [
      { title: 'part', width: '*' },
      { title: 'source', width: 48 },
      { title: 'supplier', width: 110 },
      { title: 'price', width: 50 },
      { title: 'deposit', width: 50 },
      { title: 'old unit', width: 80 },
    ],
    parts.map(({ kind, what, source, supplier, run_km, price, core_deposit, core }) => [
      {
        stack: [
          `${partWords[kind]}${what === '' ? '' : `, ${what}`}`,
          ...(run_km === null ? [] : [soft(`had run ${formatOdometer(run_km, units)} before`)]),
        ],
      },
      source,
      supplier === '' ? '–' : supplier,
      sayPrice(price),
      sayPrice(core_deposit),
      coreWords[core],
    ]),
  );

function writeCooler({ packet }: Paper): Content[] {
  const { cooler } = packet.report;
  const { due: isDue, why, lacks } = packet.cooler_due;
  const due: Content = {
    text: [why, lacks].filter((words) => words !== '').join(' '),
    bold: isDue,
  };
  if (cooler === null)
    return [
      due,
      blankRow([
        blank('replaced / flushed / not done', 130),
        blank('how', 110),
        blank('minutes', 50),
        blank('both directions: yes / no', 110),
        blank('filter clean: yes / no'),
      ]),
      blankRow([blank('flow before, L/min', 110), blank('flow after, L/min', 110), blank('notes')]),
    ];
  const flow = (litres: number | null) => (litres === null ? '–' : `${formatTenths(litres)} L/min`);
  return [
    due,
    {
      text: [
        strong(coolerWords[cooler.done]),
        [
          '',
          ...(cooler.method === null ? [] : [methodWords[cooler.method]]),
          ...(cooler.minutes === null ? [] : [`${formatWhole(cooler.minutes)} min`]),
          cooler.both_directions ? 'both directions' : 'one direction',
          cooler.filter_clean ? 'catch filter clean at the end' : 'catch filter not clean at the end',
          `flow before ${flow(cooler.flow_before_l_min)}, after ${flow(cooler.flow_after_l_min)}`,
        ].join(', '),
      ],
    },
    ...(cooler.notes === '' ? [] : [{ text: cooler.notes }]),
  ];
}

function writeTeardown({ packet }: Paper): Content[] {
  const { cause, cut_open, notes } = packet.report.teardown;
  if (cause === null && notes === '' && !cut_open)
    return [
      blankRow([blank('what turned out to be wrong'), blank('cut open: yes / no', 100)]),
      blankLines(2),
    ];
  return [
    {
      text: [
        strong(cause === null ? 'Cause not known yet' : causeWords[cause]),
        `; ${cut_open ? 'the old unit was cut open' : 'the old unit was not cut open'}`,
      ],
    },
    ...(notes === '' ? [] : [{ text: notes }]),
  ];
}

function writeClosing({ packet, units, clock }: Paper): Content[] {
  const { closing, after } = packet;
  if (closing === null) return [];
  const outcome = { repaired: 'Repaired', no_fault_found: 'No fault found', declined: 'Not repaired' }[
    closing.outcome
  ];
  return [
    {
      text: [
        strong(`${outcome}${closing.cause_words === null ? '' : `: ${closing.cause_words}`}`),
        `; work on ${clock.date(closing.work_at)} at ${formatOdometer(closing.odometer_km, units)}`,
      ],
    },
    soft(`closed ${clock.moment(closing.at)} by ${closing.by}`),
    ...(closing.reason === '' ? [] : [{ text: closing.reason }]),
    ...(closing.without_cooler === ''
      ? []
      : [{ text: `Closed without the cooler record: ${closing.without_cooler}` }]),
    ...(after === null ? [] : [{ text: after.words }]),
  ];
}

const signOff = (): Content => ({
  stack: [
    smallTitle('Signed off'),
    blankRow([
      blank('repaired / no fault found / not repaired', 170),
      blank('odometer', 80),
      blank('name'),
      blank('date', 80),
    ]),
  ],
  unbreakable: true,
});
