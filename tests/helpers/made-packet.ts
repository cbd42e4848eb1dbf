import { type EarlierJob, type Packet, packet } from '#server/contract/packets.ts';
import { type Finding, type RoadTrace, roadTrace, type TreeNode } from '#server/contract/test-steps.ts';
import { type FindingResult, type TestStep, testSteps } from '#server/contract/words.ts';

/** A packet of an invented vehicle, made up for what is written with it: not a run of the product. */

const at = '2026-03-04T09:12:00Z';

const titles: Record<TestStep, string> = {
  fluid: 'Fluid: level, colour and smell',
  road_test: 'Road test with the command held',
  solenoid_current: 'Current of the solenoid at the fuse',
  pressure: 'Pressure with the solenoid off and on',
  pan: 'Debris in the pan',
  cooler: 'Flow of the cooler',
};

const found = (
  step: TestStep,
  result: FindingResult,
  verdict: Finding['verdict'],
  words: string,
): Finding => ({
  id: testSteps.indexOf(step) + 1,
  step,
  at,
  by: 'Mira Okonjo',
  odometer_km: 371_204,
  result,
  verdict,
  words,
  rule: 'Command above 80 % and speed held for 10 s: slip above the healthy range of 8 to 22 rpm counts as slipping. Common practice, no source.',
  look_next: ['current of the solenoid at the fuse', 'pressure with the solenoid off and on'],
  shown: [
    { label: 'command', value: '92 %' },
    { label: 'slip', value: '118 rpm' },
    { label: 'held for', value: '14 s' },
  ],
  notes: 'Shudder felt at 70 km/h, uphill, in the highest gear.',
  trace: false,
});

const step = (id: string, name: TestStep, branches: [FindingResult[], string, string][]): TreeNode => ({
  id,
  step: name,
  title: titles[name],
  branches: branches.map(([results, says, to]) => ({ results, says, to })),
  end: null,
});

const end = (id: string, title: string, work: NonNullable<TreeNode['end']>['work']): TreeNode => ({
  id,
  step: null,
  title,
  branches: [],
  end: {
    words: `Consistent with: ${title.toLowerCase()}.`,
    work,
    removes_transmission: work === 'converter',
    causes: [],
  },
});

export const madeTree: TreeNode[] = [
  step('fluid', 'fluid', [
    [['level_low', 'level_high'], 'Level wrong', 'level'],
    [['coolant_in_fluid'], 'Milky', 'coolant'],
    [['fluid_burnt'], 'Burnt', 'pan'],
    [['fluid_right'], 'Right', 'road'],
  ]),
  step('road', 'road_test', [
    [['holds'], 'Holds', 'nothing'],
    [['slips', 'slip_raised'], 'Slips', 'current'],
  ]),
  step('current', 'solenoid_current', [
    [['no_current', 'current_low'], 'None, or too little', 'wiring'],
    [['current_right'], 'Right', 'pressure'],
  ]),
  step('pressure', 'pressure', [
    [['pressure_stays'], 'Stays', 'valve'],
    [['pressure_changes', 'pressure_unclear'], 'Changes', 'pan'],
  ]),
  step('pan', 'pan', [
    [['pan_lining', 'pan_metal'], 'Lining or metal', 'cooler'],
    [['pan_clean', 'pan_fine'], 'Clean, or fine grey', 'converter'],
  ]),
  step('cooler', 'cooler', [
    [['cooler_flows'], 'Flows', 'converter'],
    [['cooler_restricted'], 'Restricted', 'both'],
  ]),
  end('level', 'Level wrong', 'outside'),
  end('coolant', 'Coolant in the fluid', 'outside'),
  end('nothing', 'Nothing shows', 'none'),
  end('wiring', 'Wiring or solenoid', 'outside'),
  end('valve', 'A valve does not move', 'valve_body'),
  end('converter', 'Clutch lining worn', 'converter'),
  end('both', 'Clutch lining worn, cooler restricted', 'converter'),
];

const job = (vehicle: string, words: string): EarlierJob => ({
  packet: 11,
  vehicle,
  closed_at: '2025-10-17T14:00:00Z',
  odometer_km: 402_118,
  converter_km: 402_118,
  outcome: 'repaired',
  cause: 'lining_worn',
  words,
  flagged_slip_rpm: 104,
  findings: [
    { step: 'road_test', verdict: 'failed', words: 'Slips at 104 rpm with 90 % commanded.' },
    { step: 'pan', verdict: 'failed', words: 'Flakes of lining in the pan.' },
  ],
});

/** Three steps done, the rest open, a note, codes, two lives, earlier jobs and a report that has begun. */
export function makePacket(more: Partial<Packet> = {}): Packet {
  const findings: Partial<Record<TestStep, Finding>> = {
    fluid: found('fluid', 'fluid_right', 'passed', 'Level right, fluid red, smell as usual.'),
    road_test: found(
      'road_test',
      'slips',
      'failed',
      'Slips at 118 rpm with 92 % commanded and does not catch.',
    ),
    solenoid_current: found(
      'solenoid_current',
      'current_right',
      'passed',
      'Current rises by 1.1 A as it should.',
    ),
  };
  return packet.parse({
    id: 27,
    vehicle: 'B-1190',
    depot: 'harrow-vale',
    depot_name: 'Harrow Vale',
    platform: 'morvelt',
    platform_name: 'Morvelt 12 t',
    vin: null,
    state: 'open',
    version: 4,
    opened_at: at,
    opened_by: 'Tomasz Gęsicki',
    may_report: true,
    may_share: false,
    booking: {
      id: 4,
      state: 'booked',
      depot: 'harrow-vale',
      bay: 2,
      day: '2026-03-05',
      from: '08:00',
      past: false,
    },
    note: 'Driver tells of a shudder at steady speed. Please keep the old unit for the core deposit.',
    flag: {
      at,
      grade: 'book',
      odometer_km: 371_204,
      sentence:
        'Slip at 85 % command has risen from 12 to 96 rpm over 9,400 km; it should reach the limit of 150 rpm in 1,900 to 5,200 km, about 18 days.',
      reasons: [
        'Slip has risen from 12 to 96 rpm over 9,400 km',
        'Clearest at 85 to 100 % command: up 84 rpm',
        'Chance of crossing the limit within 5,000 km: 86 %',
      ],
      pattern: 'drift_high_command',
      pattern_words: 'Rises first at high command: consistent with a clutch lining that wears.',
      reference_slip_rpm: 96,
      baseline_rpm: 12,
      limit_rpm: 150,
      drift_rpm_per_1000km: { estimate: 8.9, low: 8.1, high: 9.7 },
      chance_within_horizon: 0.86,
      horizon_km: 5000,
      km_to_limit: { p10: 1900, p50: 3300, p90: 5200 },
      codes: [
        {
          code: 'P0741',
          meaning: 'Torque converter clutch: performance, or stuck off',
          n: 14,
          first_at: '2026-02-20T06:00:00Z',
          last_at: at,
          names_clutch: true,
        },
        {
          code: 'SPN 177 FMI 16',
          meaning: 'Transmission oil temperature: above normal, moderately severe',
          n: 3,
          first_at: '2026-02-26T06:00:00Z',
          last_at: '2026-03-01T06:00:00Z',
          names_clutch: false,
        },
      ],
    },
    now: { grade: 'book', odometer_km: 371_204, last_reading_at: at, sentence: 'Slip is 96 rpm.' },
    reference_duty_pct: 85,
    lives: [
      {
        life: 1,
        fitted_km: 0,
        fitted_at: null,
        source: 'original',
        removed_km: 214_300,
        removed_at: '2023-06-12T00:00:00Z',
        ended: 'failed',
        mode: 'lining worn',
        supplier: null,
        run_km: null,
      },
      {
        life: 2,
        fitted_km: 214_300,
        fitted_at: '2023-06-12T00:00:00Z',
        source: 'rebuilt',
        removed_km: null,
        removed_at: null,
        ended: null,
        mode: null,
        supplier: 'Brackwater Rebuilds',
        run_km: null,
      },
    ],
    earlier: [job('B-1190', 'Clutch lining worn or glazed')],
    sisters: [job('B-1017', 'Clutch lining worn or glazed'), job('B-1233', 'Valve stuck')],
    cautions: [
      'Fluid and exhaust are hot after a drive: let them cool, or wear gloves and eye protection.',
      'Support a raised vehicle on stands rated for it; never work under one that only a jack holds.',
      'A road test needs a second person to read, and a road where the law and the load allow it.',
      'A pressure gauge goes on with the engine off; a line under pressure can inject fluid through skin.',
    ],
    steps: testSteps.map((name) => {
      const finding = findings[name] ?? null;
      return {
        step: name,
        title: titles[name],
        what_for: 'Tells whether the clutch slips at all, before anything is opened.',
        how: [
          'Bring the fluid to working temperature.',
          'Hold the command above 80 % at steady speed for 10 s.',
          'Read slip from the instrument, three times.',
        ],
        cautions: name === 'fluid' ? [] : ['Hot fluid: wait, or wear gloves and eye protection.'],
        state: finding !== null ? 'done' : name === 'pressure' ? 'next' : 'open',
        why: name === 'pressure' ? 'Before this: current is right.' : null,
        finding,
        earlier:
          name === 'road_test'
            ? [found('road_test', 'too_little_steady', 'unclear', 'Too little steady driving.')]
            : [],
        expected: name === 'solenoid_current' ? '24 V / 20.5 ohm = 1.17 A more when commanded on' : null,
      };
    }),
    tree: {
      nodes: madeTree,
      path: [
        { node: 'fluid', result: 'fluid_right' },
        { node: 'road', result: 'slips' },
        { node: 'current', result: 'current_right' },
        { node: 'pressure', result: null },
      ],
    },
    also_found: [{ step: 'cooler', words: 'Cooler flow: 4.2 L/min, as it should be.' }],
    cooler_due: {
      due: true,
      lacks: 'Nothing is recorded of the cooler yet.',
      why: 'Lining came off in an earlier life: flush or replace the cooler and its lines.',
    },
    part_guide: {
      price: 1480,
      core_deposit: 350,
      supplier: 'Brackwater Rebuilds',
      spare_cores: 1,
      known_from: 'last one bought for this platform (17 Oct 2025)',
      cutting_costs: 0,
      words: 'A spare core is at hand: cutting this unit open costs nothing.',
    },
    report: {
      parts: [
        {
          kind: 'converter',
          what: 'TC-4410',
          source: 'rebuilt',
          supplier: 'Brackwater Rebuilds',
          run_km: null,
          price: 1480,
          core_deposit: 350,
          core: 'to_return',
        },
      ],
      cooler: null,
      teardown: { cause: null, cut_open: false, notes: '' },
    },
    files: [],
    closing: null,
    after: null,
    ...more,
  });
}

/** Of a vehicle of which nothing is known but its number. */
export const makeBarePacket = (): Packet =>
  makePacket({
    depot: null,
    depot_name: null,
    platform: null,
    platform_name: null,
    booking: null,
    note: null,
    flag: {
      at,
      grade: 'unknown',
      odometer_km: null,
      sentence: 'Nothing can be said yet: no readings.',
      reasons: [],
      pattern: 'none',
      pattern_words: '',
      reference_slip_rpm: null,
      baseline_rpm: null,
      limit_rpm: 150,
      drift_rpm_per_1000km: null,
      chance_within_horizon: null,
      horizon_km: 5000,
      km_to_limit: { p10: null, p50: null, p90: null },
      codes: [],
    },
    now: { grade: 'unknown', odometer_km: null, last_reading_at: null, sentence: 'No readings.' },
    lives: [],
    earlier: [],
    sisters: [],
    steps: makePacket().steps.map((one) => ({
      ...one,
      state: 'open' as const,
      why: null,
      finding: null,
      earlier: [],
      expected: null,
    })),
    tree: { nodes: [], path: [] },
    also_found: [],
    cooler_due: { due: false, why: 'No debris was found.', lacks: '' },
    part_guide: {
      price: null,
      core_deposit: null,
      supplier: null,
      spare_cores: 0,
      known_from: null,
      cutting_costs: null,
      words: '',
    },
    report: { parts: [], cooler: null, teardown: { cause: null, cut_open: false, notes: '' } },
  });

/** A minute and a half on the road: it pulls away, slips while the command is held, and the recorder has a gap. */
export function makeTrace(): RoadTrace {
  const seconds = Array.from({ length: 181 }, (_, i) => i / 2);
  const slip = (at: number) => (at < 20 ? 900 - at * 40 : 112 + 6 * Math.sin(at * 3));
  return roadTrace.parse({
    seconds,
    slip_rpm: seconds.map((at) => (at > 60 && at < 66 ? null : slip(at))),
    duty_pct: seconds.map((at) => (at < 20 ? 0 : at > 60 && at < 66 ? null : 88)),
    steady: [
      { from_s: 24, to_s: 60, duty_pct: 88, slip_rpm: 112, slope_rpm_per_s: 0.02, fluid_c: 84 },
      { from_s: 66, to_s: 90, duty_pct: 88, slip_rpm: 113, slope_rpm_per_s: 0.01, fluid_c: 86 },
    ],
    set_aside: [
      { from_s: 0, to_s: 20, reason: 'not_commanded', says: 'not commanded' },
      { from_s: 60, to_s: 66, reason: 'gap', says: 'gap' },
    ],
    gaps: [{ from_s: 60, to_s: 66 }],
    healthy: [
      { duty_pct: 62, low_rpm: 12, usual_rpm: 22, high_rpm: 34 },
      { duty_pct: 78, low_rpm: 8, usual_rpm: 14, high_rpm: 24 },
      { duty_pct: 92, low_rpm: 5, usual_rpm: 10, high_rpm: 18 },
    ],
    limit_rpm: 150,
    reference_duty_pct: 85,
    rows: 181,
    seconds_between_rows: 0.5,
    told: ['A gap of 6 s'],
    file: { name: 'road-test-b-1190.csv', bytes: 9_120, columns: { time: 'seconds', slip: 'slip_rpm' } },
  });
}
