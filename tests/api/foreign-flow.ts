import type { MappingInput } from '#server/contract/mappings.ts';

const VEHICLES = 500;
const ROWS_A_PIECE = 2000;
const START_MS = Date.UTC(2026, 0, 5);
const faults = ['zwölf', '12,5 bar', '', '99999'];

/** A file of another form, one row in a hundred of it bad, in the ways that rows are; made as it is read. */
export function foreignFlow(rows: number) {
  const mapping: MappingInput = {
    separator: ';',
    decimal: ',',
    encoding: 'windows-1252',
    columns: [
      { column: 'Fahrzeug', takes: 'vehicle' },
      { column: 'Zeit', takes: 'time' },
      { column: 'km', takes: 'odometer_km' },
      { column: 'Schlupf', takes: 'slip_rpm' },
      { column: 'WÜK', takes: 'duty_pct' },
      { column: 'Öl', takes: 'fluid_c' },
    ],
    time: { order: 'dmy' },
  };
  const two = (n: number) => String(n).padStart(2, '0');
  const toRow = (i: number): string => {
    const at = new Date(START_MS + Math.floor(i / VEHICLES) * 60_000);
    const date = `${two(at.getUTCDate())}.${two(at.getUTCMonth() + 1)}.${at.getUTCFullYear()}`;
    const time = `${date} ${two(at.getUTCHours())}:${two(at.getUTCMinutes())}:${two(at.getUTCSeconds())}`;
    const isBad = i % 100 === 99;
    const slip = isBad ? faults[Math.floor(i / 100) % faults.length] : `${i % 64},25`;
    return `Bü-${i % VEHICLES};${time};1.${100 + (i % 900)},5;${slip};85 %;9${i % 10},5 °C;${isBad ? `line ${i + 2}` : ''}\n`;
  };
  let slip = 0;
  for (let i = 0; i < rows; i++) if (i % 100 !== 99) slip += (i % 64) + 0.25;
  return {
    mapping,
    bad: Math.floor(rows / 100),
    /** sum over all good rows */
    slip,
    body: (): ReadableStream<Uint8Array> => {
      let next = -1;
      return new ReadableStream({
        pull(controller) {
          if (next < 0) {
            controller.enqueue(Buffer.from('Fahrzeug;Zeit;km;Schlupf;WÜK;Öl;Notiz\n', 'latin1'));
            next = 0;
            return;
          }
          const until = Math.min(rows, next + ROWS_A_PIECE);
          let text = '';
          for (; next < until; next++) text += toRow(next);
          if (text !== '') controller.enqueue(Buffer.from(text, 'latin1'));
          if (next >= rows) controller.close();
        },
      });
    },
  };
}
