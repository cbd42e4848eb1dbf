import type { FileUnit } from '#server/contract/mappings.ts';

/** How units are written, less case, spaces, points and accents. */
const words: Record<FileUnit, string> = {
  km: 'km kms kilometer kilometers kilometre kilometres kilometros',
  mi: 'mi mile miles mls meilen milles millas',
  m: 'm meter meters metre metres metros',
  rpm: 'rpm r/min rev/min revs/min 1/min /min min-1 min^-1 u/min upm tr/min giri/min',
  rps: 'rps 1/s s-1 s^-1 r/s rev/s u/s tr/s',
  '%': '% pct percent prozent pourcent porcentaje',
  ratio: 'ratio',
  degC: '°c c degc celsius degcelsius gradc gradcelsius',
  degF: '°f f degf fahrenheit degfahrenheit',
  K: 'k kelvin',
  'km/h': 'km/h kmh kph kmph km/hr km/std',
  mph: 'mph mi/h miles/h mi/hr',
  'm/s': 'm/s mps',
  s: 's sec secs second seconds sek sekunden seg segundos secondes',
  ms: 'ms msec millisecond milliseconds',
  min: 'min mins minute minutes minuten minutos',
};

const byWord = new Map(
  Object.entries(words).flatMap(([unit, all]) => all.split(' ').map((word) => [word, unit as FileUnit])),
);

/** The unit that a text names; undefined where it names none that is known. */
export const unitOf = (text: string): FileUnit | undefined =>
  byWord.get(
    text
      .replaceAll(/[º˚]/g, '°')
      .normalize('NFKD')
      .replaceAll(/[\u0300-\u036f]/g, '')
      .replaceAll('−', '-')
      .replaceAll(/[\s.]/g, '')
      .toLowerCase(),
  );
