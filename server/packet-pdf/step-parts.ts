import type { Content } from 'pdfmake/interfaces.js';
import type { PacketStep } from '#server/contract/packets.ts';
import type { Finding } from '#server/contract/test-steps.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { below, blankRow, boxed, bullets, section, soft, strong, together } from './blocks.ts';
import type { Paper } from './paper.ts';
import { signBlanks, stepBlanks } from './step-blanks.ts';

const stateWords: Record<PacketStep['state'], string> = {
  next: 'do this next',
  open: 'open',
  done: 'done',
  not_needed: 'not needed, may still be done',
};

const verdictWords: Record<Finding['verdict'], string> = {
  passed: 'passed',
  failed: 'failed',
  unclear: 'unclear',
};

/** Findings that a later one of the same step replaced. */
const MOST_EARLIER = 4;

export function writeCautions({ packet }: Paper): Content {
  return {
    ...together(
      boxed(
        { text: 'Cautions', bold: true, fontSize: 12.5 },
        packet.cautions.length === 0
          ? { text: 'The maker’s service information, local codes and licensed technicians decide.' }
          : bullets(packet.cautions),
      ),
    ),
    ...below(14),
  };
}

export function writeSteps(paper: Paper): Content {
  const [first, ...rest] = paper.packet.steps.map((step, at) => writeStep(paper, step, at + 1));
  return section(
    'Test steps, from cheap and outside to dear and inside',
    first ?? { text: 'None.' },
    ...rest,
  );
}

function writeStep(paper: Paper, step: PacketStep, place: number): Content {
  return {
    ...together(
      {
        text: [
          { text: `${place}  ${step.title}`, bold: true, fontSize: 11 },
          { text: `   ${stateWords[step.state]}`, bold: step.state === 'next' },
          ...(step.why === null ? [] : [soft(`   ${step.why}`)]),
        ],
      },
      { text: step.what_for, margin: [0, 1, 0, 2] },
      ...(step.how.length === 0 ? [] : [{ ol: [...step.how] }]),
      ...(step.cautions.length === 0 ? [] : [boxed(strong('Caution'), bullets(step.cautions))]),
      ...(step.expected === null
        ? []
        : [
            {
              text: [strong('To expect: '), step.expected],
              ...below(2),
            },
          ]),
      ...(step.finding === null
        ? [...stepBlanks[step.step].map((row) => blankRow(row)), blankRow(signBlanks)]
        : writeFinding(paper, step.finding)),
      ...step.earlier
        .slice(0, MOST_EARLIER)
        .map(({ at, by, words }) => soft(`before, ${paper.clock.moment(at)}, ${by}: ${words}`)),
      ...(step.earlier.length > MOST_EARLIER
        ? [soft(`and ${step.earlier.length - MOST_EARLIER} older`)]
        : []),
    ),
    margin: [0, 4, 0, 10],
  };
}

function writeFinding({ units, clock }: Paper, finding: Finding): Content[] {
  const odometer = finding.odometer_km === null ? '' : `, at ${formatOdometer(finding.odometer_km, units)}`;
  return [
    {
      text: [strong(`Found (${verdictWords[finding.verdict]}): `), strong(finding.words)],
      ...below(3),
    },
    {
      text: finding.shown.map(({ label, value }) => `${label}: ${value}`).join('   ·   '),
      ...below(1),
    },
    ...(finding.notes === '' ? [] : [{ text: `Notes: ${finding.notes}` }]),
    soft(`${clock.moment(finding.at)}, ${finding.by}${odometer}. ${finding.rule}`),
    ...(finding.look_next.length === 0 ? [] : [{ text: `Look next: ${finding.look_next.join('; ')}` }]),
  ];
}
