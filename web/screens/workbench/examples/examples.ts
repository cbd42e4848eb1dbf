import type { WorkbenchKind } from '#server/contract/workbench-words.ts';

export interface Example {
  id: string;
  kind: WorkbenchKind;
  name: string;
  /** where the data were published */
  source: string;
  load: () => Promise<string>;
}

/** Published data to try the workbench on, each with its source. */
export const examples: readonly Example[] = [
  {
    id: 'shock-absorbers',
    kind: 'lives',
    name: 'Distance to failure of 38 vehicle shock absorbers',
    source:
      "km, 11 failures of two modes. O'Connor (1985), Practical Reliability Engineering, 2nd ed.; Meeker and Escobar (1998), Statistical Methods for Reliability Data, table C.2.",
    load: async () => (await import('./shock-absorbers.csv?raw')).default,
  },
  {
    id: 'sulfate',
    kind: 'series',
    name: 'Sulfate in a well, 1989 to 1996',
    source:
      'Year and ppm, 23 samples. USEPA (2009), Unified Guidance, EPA 530/R-09-007, example 17-6; its trend is 26.7 ppm a year.',
    load: async () => (await import('./sulfate.csv?raw')).default,
  },
];

export const findExample = (id: string | undefined): Example | undefined =>
  examples.find((one) => one.id === id);
