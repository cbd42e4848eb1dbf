import type { MappingInput } from '#server/contract/mappings.ts';

const VEHICLES = 500;
const START_MS = Date.UTC(2026, 0, 5);
const MOMENTS_A_PIECE = 2000;
const names = ['Odometer', 'Slip', 'Duty', 'Oil'] as const;
const values: Record<(typeof names)[number], (i: number) => string> = {
  Odometer: (i) => `${1000 + (i % 900)}.5 km`,
  Slip: (i) => `${i % 64}.25`,
  Duty: () => '85 %',
  Oil: (i) => `9${i % 10}`,
};

/** Values of a long layout that come sorted by their name: every moment waits for the last of them. */
export function longFlow(moments: number) {
  const mapping: MappingInput = {
    layout: 'long',
    columns: [
      { column: 'vehicle', takes: 'vehicle' },
      { column: 'time', takes: 'time' },
      { column: 'signal', takes: 'name' },
      { column: 'value', takes: 'value' },
    ],
    names: [
      { name: 'Odometer', field: 'odometer_km' },
      { name: 'Slip', field: 'slip_rpm' },
      { name: 'Duty', field: 'duty_pct' },
      { name: 'Oil', field: 'fluid_c' },
    ],
  };
  return {
    mapping,
    rows: moments * names.length,
    body: (): ReadableStream<Uint8Array> => {
      const rows = makeRows(moments);
      return new ReadableStream({
        pull(controller) {
          const { value, done } = rows.next();
          if (done === true) controller.close();
          else controller.enqueue(Buffer.from(value));
        },
      });
    },
  };
}

function* makeRows(moments: number): Generator<string> {
  yield 'vehicle,time,signal,value\n';
  for (const name of names)
    for (let from = 0; from < moments; from += MOMENTS_A_PIECE) {
      let text = '';
      for (let i = from; i < Math.min(moments, from + MOMENTS_A_PIECE); i++) {
        const at = new Date(START_MS + Math.floor(i / VEHICLES) * 60_000).toISOString();
        text += `L-${i % VEHICLES},${at},${name},${values[name](i)}\n`;
      }
      yield text;
    }
}
